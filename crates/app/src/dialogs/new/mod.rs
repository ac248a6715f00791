//! The dialog of a new board: the fields of an order, and a picture of the board that follows from them.

mod picture;
mod proposal;

use board::{Board, Build, Center, Choice as _, Field, Paper, PieceKind, Shop, Units, field};
use egui::{Align, Layout, RichText, ScrollArea, Ui, vec2};
use geometry::Pattern;
use workshop::{BoardOrder, OrderSlab, ProposeError, Species, Wishes, species};

use super::{Answer, buttons, fault_ui, heading};
use crate::host::Host;
use crate::theme;
use crate::widgets::{choice, choice_ui, number_ui, optional_ui, search_choice};
use picture::picture_ui;
use proposal::{Made, Proposals};
pub use proposal::{Proposed, propose_at_once};

/// An order as it is typed in the dialog.
pub struct NewDialog {
    units: Units,
    players: u32,
    pattern: Pattern,
    /// Spaces, home holes and start holes per player; `None`: chosen to suit the rest.
    counts: [Option<f64>; 3],
    piece: PieceKind,
    /// The size of the pieces; `None`: the usual size.
    piece_diameter: Option<f64>,
    center: Center,
    /// The diameter of the board; `None`: the smallest that works, or the largest that the slab gives.
    diameter: Option<f64>,
    /// The hole spacing; `None`: chosen to suit board and pieces.
    pitch: Option<f64>,
    /// The slab it is to come out of.
    slab: Option<OrderSlab>,
    /// The species; none: not known yet.
    species: Option<&'static Species>,
    /// The paper; `None`: the usual one for the unit, or that of the shop.
    paper: Option<Paper>,
    /// Whether the board begins with what the shop has.
    with_shop: bool,
    shop: Shop,
    proposals: Proposals,
    /// The fault, if there is one.
    pub fault: Option<String>,
}

/// An order, and whether the shop's own things are given to its board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    /// The order.
    pub order: BoardOrder,
    /// Whether the board begins with what the shop has.
    pub with_shop: bool,
}

/// Width of the fields, with the room that their scroll bar takes.
const FIELDS: f32 = 300.0;
/// Least and most width of the whole.
const WIDTHS: (f32, f32) = (FIELDS, 700.0);
/// Least width at which the picture stands beside the fields.
const BESIDE: f32 = 520.0;
/// Height of the heading, the buttons and the frame around it all.
const AROUND: f32 = 144.0;
/// The initial size of the slab: length, width and thickness, in inches and in millimeters; from memory.
const SLABS: ([f64; 3], [f64; 3]) = ([60.0, 24.0, 1.25], [1500.0, 600.0, 32.0]);

impl NewDialog {
    /// Six players on a ring, in a unit, with what the shop has.
    pub fn new(units: Units, shop: &Shop) -> Self {
        Self {
            units,
            players: 6,
            pattern: Pattern::Ring,
            counts: [None; 3],
            piece: PieceKind::Marble,
            piece_diameter: None,
            center: Board::default().center,
            diameter: None,
            pitch: None,
            slab: None,
            species: None,
            paper: None,
            with_shop: true,
            shop: shop.clone(),
            proposals: Proposals::default(),
            fault: None,
        }
    }

    fn asked(&self) -> Asked {
        let [spaces, home, start] = self.counts.map(|count| count.map(|count| count as u32));
        let wishes = Wishes {
            spaces,
            home,
            start,
            units: Some(self.units),
            players: Some(self.players),
            pattern: Some(self.pattern),
            piece: Some(self.piece),
            piece_diameter: self.piece_diameter,
            center: Some(self.center),
            diameter: self.diameter,
            pitch: self.pitch,
            ..Wishes::default()
        };
        let order = BoardOrder {
            wishes,
            slab: self.slab.clone(),
            species: self.species.map(|species| species.id.into()),
            paper: self.paper,
        };
        Asked {
            order,
            with_shop: self.with_shop,
        }
    }

    /// Takes numbers that work in place of those that were refused.
    fn take(&mut self, wishes: &Wishes) {
        self.players = wishes.players.unwrap_or(self.players);
        let counts = [wishes.spaces, wishes.home, wishes.start];
        self.counts = counts.map(|count| count.map(f64::from));
        self.piece_diameter = wishes.piece_diameter;
        self.diameter = wishes.diameter;
        self.pitch = wishes.pitch;
    }

    /// The paper where none is chosen.
    fn usual_paper(&self) -> Paper {
        let mut begun = Board::begun(self.units);
        if self.with_shop {
            self.shop.give(&mut begun);
        }
        begun.template.paper
    }
}

/// The fields of an order, beside the board that comes of them.
pub fn new_ui(ui: &mut Ui, dialog: &mut NewDialog, host: &dyn Host) -> Option<Answer> {
    let window = ui.ctx().content_rect().size();
    let width = (window.x - 80.0).clamp(WIDTHS.0, WIDTHS.1);
    ui.set_width(width);
    heading(ui, "New board");
    let height = (window.y - AROUND).max(120.0);
    let asked = dialog.asked();
    let shop = dialog.shop.clone();
    dialog.proposals.ask(ui.ctx(), host, &shop, &asked);
    let before = (asked.clone(), dialog.fault.is_some());
    if width >= BESIDE {
        ui.horizontal_top(|ui| {
            let column = Layout::top_down(Align::Min);
            ui.allocate_ui_with_layout(vec2(FIELDS, height), column, |ui| {
                scrolled(ui, FIELDS, height, |ui| fields_ui(ui, dialog));
            });
            ui.vertical(|ui| comes_ui(ui, dialog, &asked));
        });
    } else {
        scrolled(ui, width, height, |ui| {
            fields_ui(ui, dialog);
            comes_ui(ui, dialog, &asked);
        });
    }
    if before.1 && dialog.asked() != before.0 {
        dialog.fault = None;
    }
    fault_ui(ui, dialog.fault.as_ref());
    let made = dialog.proposals.of(&asked);
    let (begin, cancel) = buttons(ui, "Begin", !matches!(made, Some(Err(_))));
    if begin {
        let proposed = made.and_then(|made| made.as_ref().ok()).cloned();
        Some(Answer::New(Box::new(asked), proposed))
    } else {
        cancel.then_some(Answer::Cancel)
    }
}

fn scrolled(ui: &mut Ui, width: f32, height: f32, content: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical()
        .id_salt("order")
        .max_height(height)
        .min_scrolled_height(height.min(120.0))
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.set_width(width - theme::GAP);
            content(ui);
        });
}

/// The fields have the names that they have in the controls, so that a maker finds them there again.
fn fields_ui(ui: &mut Ui, dialog: &mut NewDialog) {
    let units = dialog.units;
    choice_ui(ui, &field::UNITS.label(0), &mut dialog.units);
    let mut players = f64::from(dialog.players);
    let caption = field::PLAYERS.label(0);
    number_ui(ui, &caption, &field::PLAYERS, &mut players, units);
    dialog.players = players as u32;
    choice_ui(ui, &field::PATTERN.label(0), &mut dialog.pattern);
    counts_ui(ui, dialog);
    choice_ui(ui, &field::PIECE_KIND.label(0), &mut dialog.piece);
    let open = if dialog.slab.is_some() {
        "largest from slab"
    } else {
        "smallest that fits"
    };
    let piece = &mut dialog.piece_diameter;
    open_ui(ui, &field::PIECE_DIAMETER, piece, units, "usual size");
    choice_ui(ui, &field::CENTER.label(0), &mut dialog.center);
    let diameter = &mut dialog.diameter;
    open_ui(ui, &field::BOARD_DIAMETER, diameter, units, open);
    let pitch = &mut dialog.pitch;
    open_ui(ui, &field::PITCH, pitch, units, "chosen to suit");
    slab_ui(ui, dialog);
    species_ui(ui, &mut dialog.species);
    paper_ui(ui, dialog);
    let about = "Your own paper, planer, bits, saw and resin, as you last had them; see File, Shop";
    ui.checkbox(&mut dialog.with_shop, "Begin with my shop")
        .on_hover_text(about);
    let words = "What you leave empty is chosen to suit.";
    ui.label(theme::quiet(words));
}

/// A number that may be left open, under its name in the controls.
fn open_ui(ui: &mut Ui, field: &Field, number: &mut Option<f64>, units: Units, without: &str) {
    optional_ui(ui, &field.label(0), field, number, units, without);
}

/// Spaces, home holes and start holes of a player; where none is typed, the field shows what was chosen.
fn counts_ui(ui: &mut Ui, dialog: &mut NewDialog) {
    let last = dialog.proposals.last();
    let board = last.as_ref().map(|last| last.workpiece.board());
    let fields = [&field::SPACES, &field::HOME, &field::START];
    for (field, count) in fields.into_iter().zip(&mut dialog.counts) {
        let chosen = board.and_then(|board| field.value(board, 0));
        let without = chosen.map_or_else(
            || "chosen to suit".into(),
            |chosen| format!("chosen: {}", field.shown(&chosen, dialog.units)),
        );
        open_ui(ui, field, count, dialog.units, &without);
    }
}

/// The slab that the board is to come out of, if it is known.
fn slab_ui(ui: &mut Ui, dialog: &mut NewDialog) {
    let units = dialog.units;
    let mut has_slab = dialog.slab.is_some();
    if ui
        .checkbox(&mut has_slab, "Make it out of a slab I have")
        .on_hover_text("Where no size is typed, the board is as large as the slab gives")
        .changed()
    {
        let (inches, mm) = SLABS;
        let [length, width, thickness] = match units {
            Units::Inch(_) => inches.map(|inches| inches * board::INCH),
            Units::Mm => mm,
        };
        dialog.slab = has_slab.then_some(OrderSlab {
            length,
            width,
            thickness,
            build: Build::Whole,
        });
    }
    let Some(slab) = &mut dialog.slab else { return };
    let rows: [(&str, &Field, &mut f64); 3] = [
        ("Slab length", &field::STOCK_LENGTH, &mut slab.length),
        ("Slab width", &field::STOCK_WIDTH, &mut slab.width),
        (
            "Slab thickness",
            &field::STOCK_THICKNESS,
            &mut slab.thickness,
        ),
    ];
    for (caption, field, number) in rows {
        number_ui(ui, caption, field, number, units);
    }
    let ways = [
        Way::Whole,
        Way::Halves,
        Way::Strips(2),
        Way::Strips(3),
        Way::Strips(4),
    ];
    let mut way = Way::of(&slab.build);
    choice(ui, &field::BUILD.label(0), &mut way, &ways, Way::words);
    slab.build = way.build();
}

/// A way to get a board out of a slab.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Whole,
    Halves,
    Strips(u32),
}

impl Way {
    fn of(build: &Build) -> Self {
        match build {
            Build::Halves => Self::Halves,
            Build::Strips { count } => Self::Strips(*count),
            Build::Whole | Build::Seams { .. } => Self::Whole,
        }
    }

    fn build(self) -> Build {
        match self {
            Self::Whole => Build::Whole,
            Self::Halves => Build::Halves,
            Self::Strips(count) => Build::Strips { count },
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Whole => "one piece",
            Self::Halves => "bookmatched halves",
            Self::Strips(2) => "2 strips",
            Self::Strips(3) => "3 strips",
            Self::Strips(_) => "4 strips",
        }
    }
}

fn species_ui(ui: &mut Ui, chosen: &mut Option<&'static Species>) {
    let mut all = vec![None];
    all.extend(species().iter().map(Some));
    search_choice(
        ui,
        &field::SPECIES.label(0),
        chosen,
        &all,
        |species: Option<&Species>| species.map_or_else(|| "decide later".into(), Species::spoken),
    );
}

fn paper_ui(ui: &mut Ui, dialog: &mut NewDialog) {
    let is_named = |paper: &Paper| !matches!(paper, Paper::Custom { .. });
    let usual = dialog.usual_paper();
    let mut all: Vec<Paper> = Paper::KINDS.iter().copied().filter(is_named).collect();
    if !all.contains(&usual) {
        all.push(usual);
    }
    let mut paper = dialog.paper.unwrap_or(usual);
    if choice(ui, &field::PAPER.label(0), &mut paper, &all, |paper| {
        paper.words()
    })
    .changed()
    {
        dialog.paper = Some(paper);
    }
}

/// The board for the order, in a picture and in words, or the reason why there is none and the values that would work.
fn comes_ui(ui: &mut Ui, dialog: &mut NewDialog, asked: &Asked) {
    let made: Option<Made> = dialog.proposals.of(asked).cloned();
    if let Some(Err(fault)) = &made {
        refused_ui(ui, dialog, &asked.order.wishes, fault);
        return;
    }
    if let Some(proposed) = dialog.proposals.last() {
        picture_ui(ui, &proposed.workpiece);
        for line in proposed.words() {
            ui.label(line);
        }
    }
    if made.is_none() {
        ui.label(RichText::new("working out the board …").weak());
    }
}

/// The reason why there is no such board, and a button for each value that would work instead.
fn refused_ui(ui: &mut Ui, dialog: &mut NewDialog, wishes: &Wishes, fault: &ProposeError) {
    let units = dialog.units;
    let tokens = theme::Tokens::of(ui);
    let ProposeError::Refused(refusal) = fault else {
        ui.colored_label(tokens.stop, format!("▲ {}", units.say(fault)));
        return;
    };
    ui.colored_label(tokens.stop, format!("▲ {}.", refusal.why));
    if !refusal.offers.is_empty() {
        ui.label("With everything else as you asked, one of these works:");
    }
    for offers in &refusal.offers {
        let words: Vec<String> = offers.iter().map(|offer| units.say(offer)).collect();
        let others = wishes.with(offers);
        if ui.button(words.join(" with ")).clicked() {
            dialog.take(&others);
        }
    }
}
