//! The depth of a bore for the ball or disc in it: the maker chooses how it is to lie, and a button sets the depth for that.

use board::{Board, Bore, Field, Units, field, show_setting};
use egui::{Button, Id, Role, Ui, WidgetInfo, vec2};
use workshop::{InsertWish, insert_depth};

use crate::panels::rows::remark;
use crate::widgets::{caption_width, choice, field_width, number_ui};

/// A way to say how a ball or disc is to lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Flush,
    Proud,
    Below,
    Gap,
    Pull,
}

/// The chosen way for a ball or disc to lie; kept while the window is open, not in the document.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Wish {
    way: Way,
    mm: f64,
    newtons: f64,
}

impl Way {
    const ALL: [Self; 5] = [Self::Flush, Self::Proud, Self::Below, Self::Gap, Self::Pull];

    const fn label(self) -> &'static str {
        match self {
            Self::Flush => "flush",
            Self::Proud => "proud",
            Self::Below => "below the top",
            Self::Gap => "for a gap",
            Self::Pull => "for a pull",
        }
    }
}

impl Default for Wish {
    /// Flush, with half a millimeter and half a newton as starting values.
    fn default() -> Self {
        Self {
            way: Way::Flush,
            mm: 0.5,
            newtons: 0.5,
        }
    }
}

/// The sizes of a wish, by their fields.
impl Wish {
    const fn of(self) -> InsertWish {
        match self.way {
            Way::Flush => InsertWish::Flush,
            Way::Proud => InsertWish::Proud(self.mm),
            Way::Below => InsertWish::Below(self.mm),
            Way::Gap => InsertWish::Gap(self.mm),
            Way::Pull => InsertWish::Pull(self.newtons),
        }
    }

    /// The number that goes with it, the field whose range it has, and its caption; none where it is flush.
    const fn number(&mut self) -> Option<(&mut f64, &'static Field, &'static str)> {
        match self.way {
            Way::Flush => None,
            Way::Proud => Some((&mut self.mm, &field::TRACK_DEPTH, "proud by")),
            Way::Below => Some((&mut self.mm, &field::TRACK_DEPTH, "below by")),
            Way::Gap => Some((&mut self.mm, &field::TRACK_DEPTH, "gap")),
            Way::Pull => Some((&mut self.newtons, &field::PULL, "pull")),
        }
    }
}

/// Below the depth of a bore: how the ball or disc in it is to lie, and the depth for that.
pub fn insert_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, board: &Board) {
    let kept = Id::unique("ball or disc wanted").with(whose);
    let mut wish: Wish = ui.data(|data| data.get_temp(kept)).unwrap_or_default();
    let units = board.units;
    let caption = format!("{whose} ball or disc");
    choice(ui, &caption, &mut wish.way, &Way::ALL, Way::label).on_hover_text(HINT);
    if let Some((number, field, what)) = wish.number() {
        number_ui(ui, &format!("{whose} {what}"), field, number, units);
    }
    ui.data_mut(|data| data.insert_temp(kept, wish));
    match insert_depth(board, *bore, wish.of()) {
        Ok(depth) if (depth - bore.depth).abs() < 1e-9 => {
            remark(ui, &format!("{whose} depth is right for that"));
        }
        Ok(depth) => {
            if depth_button(ui, whose, depth, units) {
                bore.depth = depth;
            }
        }
        Err(error) => remark(ui, &format!("No depth for that: {}", units.say(&error))),
    }
}

const HINT: &str = "How the ball or disc is to lie: its top level with the board, above it, below it, a gap from the magnet \
     (set-back and finish counted), or so deep that this much of the measured pull is left (an estimate)";

/// The button with the depth that is found; returns whether it was pressed.
fn depth_button(ui: &mut Ui, whose: &str, depth: f64, units: Units) -> bool {
    ui.horizontal(|ui| {
        ui.add_space(caption_width(ui) + ui.spacing().item_spacing.x);
        let depth = show_setting(depth, units);
        let size = vec2(field_width(ui), ui.spacing().interact_size.y);
        let button = ui.add(Button::new(format!("Use depth {depth}")).min_size(size));
        // A screen reader hears whose depth it is.
        button.widget_info(|| {
            WidgetInfo::labeled(Role::Button, true, format!("{whose} depth, use {depth}"))
        });
        button.on_hover_text(HINT).clicked()
    })
    .inner
}

#[cfg(test)]
mod tests {
    use crate::panels::bores::bores_ui;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use board::{Magnet, PieceKind, Units, show_setting};
    use testkit::assert_near;
    use workshop::{InsertWish, insert_depth, magnet_hold};

    #[test]
    fn a_depth_is_taken_for_the_way_that_a_ball_is_to_lie() {
        let mut panel = hand::panel(1000.0, |ui, board| bores_ui(ui, board, &mut Vec::new()));
        assert!(!sees(&panel, "Bore ball or disc"));
        panel.state_mut().piece.kind = PieceKind::Magnet;
        panel.state_mut().piece.shank = Some(10.0);
        panel.run();
        press(&mut panel, "Bore depth, use 10 mm");
        assert_eq!(panel.state().bores.track.depth, 10.0);
        assert_eq!(panel.state().bores.home.depth, 10.0);
        assert!(sees(&panel, "Bore depth is right for that"));
        choose(&mut panel, "Bore ball or disc", "below the top");
        type_into(&mut panel, "Bore below by", "0.3");
        press(&mut panel, "Bore depth, use 10.3 mm");
        assert_near!(panel.state().bores.track.depth, 10.3, 1e-12);
    }

    #[test]
    fn a_pull_is_asked_for_and_what_stops_it_is_told() {
        let mut panel = hand::panel(1000.0, |ui, board| bores_ui(ui, board, &mut Vec::new()));
        panel.state_mut().piece.kind = PieceKind::Magnet;
        panel.state_mut().piece.shank = Some(10.0);
        panel.run();
        choose(&mut panel, "Bore ball or disc", "for a pull");
        assert!(sees(&panel, "enter magnet data first"));
        panel.state_mut().piece.magnet = Some(Magnet::default());
        panel.run();
        type_into(&mut panel, "Bore pull", "50");
        assert!(sees(&panel, "even flush the pull is"));
        type_into(&mut panel, "Bore pull", "1");
        let board = panel.state().clone();
        let depth = insert_depth(&board, board.bores.track, InsertWish::Pull(1.0)).unwrap();
        let depth = show_setting(depth, Units::Mm);
        press(&mut panel, &format!("Bore depth, use {depth}"));
        let board = panel.state();
        let held = magnet_hold(&board.piece, board.bores.track).unwrap();
        assert_near!(held.pull, 1.0, 1e-9);
    }
}
