//! The key sizes in large type, each with the holes or parts it concerns; all others are in the table of figures.

use board::{Choice, Measure, PieceKind, Units};
use egui::{Align, Label, Layout, TextStyle, TextWrapMode, Ui, WidgetText, vec2};
use workshop::{Finding, Rule, Severity, WoodError, Workpiece};

use crate::command::Command;
use crate::stage::Stage;
use crate::theme::{self, Tokens};
use crate::widgets::{caption_ui, mark};

/// Least width of a size, in points.
const LEAST: f32 = 120.0;

/// A size: its name, its value or the link to where it is missing, and the holes or parts it concerns.
struct Size {
    caption: &'static str,
    value: Known,
    about: String,
    /// The numbers that it follows from.
    from: &'static str,
    /// The rules that check it; their findings are marked beside it.
    rules: &'static [Rule],
}

/// A size, or the words of a link to the stage where it is missing.
enum Known {
    So(String),
    Missing(&'static str, Stage),
}

/// The sizes in as many columns as there is room for.
pub fn key_sizes_ui(ui: &mut Ui, workpiece: &Workpiece, asked: &mut Vec<Command>) {
    let width = ui.available_width();
    let columns = (((width + theme::GAP) / (LEAST + theme::GAP)) as usize).max(1);
    let gaps = theme::GAP * (columns - 1) as f32;
    let column = ((width - gaps) / columns as f32).max(0.0);
    for row in sizes(workpiece).chunks(columns) {
        let heights: Vec<f32> = row
            .iter()
            .map(|size| caption_height(ui, size.caption, column))
            .collect();
        let highest = heights.iter().copied().fold(0.0, f32::max);
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = theme::GAP;
            for (size, height) in row.iter().zip(heights) {
                let column = vec2(column, 0.0);
                ui.allocate_ui_with_layout(column, Layout::top_down(Align::Min), |ui| {
                    ui.set_width(column.x);
                    // The figures of a row are level, even beside a caption of two lines.
                    ui.add_space(highest - height);
                    size_ui(ui, size, workpiece.findings(), asked);
                });
            }
        });
        ui.add_space(theme::TIGHT);
    }
}

/// Height of a caption wrapped to a width, in points.
fn caption_height(ui: &Ui, caption: &str, width: f32) -> f32 {
    let words = WidgetText::from(theme::quiet(caption));
    let lines = words.into_galley(ui, Some(TextWrapMode::Wrap), width, TextStyle::Body);
    lines.size().y
}

fn size_ui(ui: &mut Ui, size: &Size, findings: &[Finding], asked: &mut Vec<Command>) {
    ui.spacing_mut().item_spacing.y = theme::HAIR;
    caption_ui(ui, size.caption, theme::quiet(size.caption));
    match &size.value {
        Known::So(value) => {
            ui.horizontal(|ui| {
                if let Some(worst) = worst(findings, size.rules) {
                    mark_ui(ui, worst);
                }
                let value = ui.add(Label::new(theme::figure(value)).truncate());
                value.on_hover_text(size.from);
            });
        }
        Known::Missing(words, stage) => {
            if ui.link(*words).on_hover_text(stage.tooltip()).clicked() {
                asked.push(Command::Stage(*stage));
            }
        }
    }
    if !size.about.is_empty() {
        ui.add(Label::new(theme::quiet(&size.about)).wrap());
    }
}

/// The mark of a finding before a figure.
fn mark_ui(ui: &mut Ui, severity: Severity) {
    ui.spacing_mut().item_spacing.x = theme::TIGHT;
    let (rect, _) = ui.allocate_exact_size(vec2(12.0, theme::FIGURE), egui::Sense::hover());
    let color = Tokens::of(ui).severity(severity);
    mark(ui, rect.center(), 0.9, severity, color);
}

/// The worst severity among the findings of some rules; notes do not count.
fn worst(findings: &[Finding], rules: &[Rule]) -> Option<Severity> {
    let of_rules = |severity| {
        let is_it =
            |finding: &Finding| finding.severity == severity && rules.contains(&finding.rule);
        findings.iter().any(is_it).then_some(severity)
    };
    of_rules(Severity::Stop).or_else(|| of_rules(Severity::Caution))
}

/// Every size, the most important first.
fn sizes(workpiece: &Workpiece) -> Vec<Size> {
    let mut sizes = vec![piece(workpiece), spacing(workpiece)];
    sizes.extend(woods(workpiece));
    sizes.push(weight(workpiece));
    sizes.push(holes(workpiece));
    sizes.extend(work(workpiece));
    sizes.extend(paper(workpiece));
    sizes
}

fn plain(caption: &'static str, value: String, about: String, rules: &'static [Rule]) -> Size {
    Size {
        caption,
        value: Known::So(value),
        about,
        from: from(caption),
        rules,
    }
}

/// The numbers that a size follows from, by its name.
fn from(caption: &str) -> &'static str {
    match caption {
        "Hole spacing" => "Typed under Lay out, Pattern",
        "Least wood between holes" => "Distance of the centers, less both radii",
        "Rim margin" => {
            "Radius of the flat inside the roundover, less the hole's distance from the pin and its radius"
        }
        "Board weight" => {
            "Volume of the wood, times its density at your shop's moisture, with resin and the steel set into the holes"
        }
        "Holes" => "Counted, with the center and extra holes",
        "Time" => "Hands-on minutes of every operation, for all boards of the order",
        "Price" => "Cost, with your margin and tax",
        "Sheets" => "Columns times rows of paper, less the sheets that would stay empty",
        "Nearest to a joint" => "From a hole's center to where two sheets are taped",
        _ => "Typed under Lay out, Pieces",
    }
}

fn piece(workpiece: &Workpiece) -> Size {
    let board = workpiece.board();
    let caption = match board.piece.kind {
        PieceKind::Marble => "Marble",
        PieceKind::Peg => "Peg",
        PieceKind::Magnet => "Magnet piece",
    };
    let bore = workpiece.length(board.bores.track.diameter);
    let value = workpiece.length(board.piece.diameter);
    plain(
        caption,
        value,
        format!("in {bore} holes"),
        &[Rule::Seat, Rule::Pieces],
    )
}

fn spacing(workpiece: &Workpiece) -> Size {
    let value = workpiece.length(workpiece.board().pitch);
    plain("Hole spacing", value, "center to center".into(), &[])
}

fn woods(workpiece: &Workpiece) -> Vec<Size> {
    let (figures, units) = (workpiece.figures(), workpiece.units());
    let web = figures.smallest_web.map(|thinnest| {
        let [a, b] = thinnest.holes;
        let about = format!("{a} – {b}");
        plain(
            "Least wood between holes",
            least(thinnest.mm, units),
            about,
            &[Rule::Web],
        )
    });
    let rim = figures.smallest_rim.as_ref().map(|(rim, name)| {
        let rules = &[Rule::Rim, Rule::Roundover];
        plain("Rim margin", least(*rim, units), name.to_string(), rules)
    });
    web.into_iter().chain(rim).collect()
}

/// A length of wood that is left: in tenths of a millimeter, rounded down, or in the inches of the board.
fn least(mm: f64, units: Units) -> String {
    let shown = match units {
        Units::Mm => (mm * 10.0 + 1e-6).floor() / 10.0,
        Units::Inch(_) => mm,
    };
    Measure::mm(shown).shown(units)
}

fn weight(workpiece: &Workpiece) -> Size {
    let caption = "Board weight";
    match workpiece.mass() {
        Ok(mass) => {
            // Rounded to 10 g; a kitchen scale shows no more.
            let kilograms = (mass.total() / 10.0).round() / 100.0;
            let value = Measure::kilograms(kilograms).shown(workpiece.units());
            plain(caption, value, "finished weight".into(), &[Rule::Carry])
        }
        Err(error) => Size {
            caption,
            value: Known::Missing("Choose a wood", Stage::Wood),
            about: match error {
                WoodError::NoWood => String::new(),
                other => workpiece.units().say(other),
            },
            from: from(caption),
            rules: &[],
        },
    }
}

fn holes(workpiece: &Workpiece) -> Size {
    let players = board::several(workpiece.board().players as usize, "player");
    plain("Holes", workpiece.figures().holes.to_string(), players, &[])
}

/// Time and price of the order.
fn work(workpiece: &Workpiece) -> [Size; 2] {
    let costing = workpiece.costing();
    let boards = board::several(costing.boards as usize, "board");
    let time = Measure::hours(costing.minutes() / 60.0).shown(workpiece.units());
    let time = plain(
        "Time",
        time,
        format!("hands-on, {boards}"),
        &[Rule::Calendar],
    );
    let missing = match costing.missing.len() {
        0 => format!("{boards}, with tax"),
        count => format!("{} missing", board::several(count, "price")),
    };
    let price = match costing.sale {
        Some(sale) if costing.cost.minor > 0 => {
            let total = sale.total.shown(costing.currency);
            plain("Price", total, missing, &[Rule::Price])
        }
        _ => Size {
            caption: "Price",
            value: Known::Missing("Enter prices", Stage::HandOver),
            about: String::new(),
            from: from("Price"),
            rules: &[],
        },
    };
    [time, price]
}

/// The sheets of the template, and how near a hole comes to where two are taped.
fn paper(workpiece: &Workpiece) -> Vec<Size> {
    let Ok(tiling) = workpiece.tiling() else {
        let why = "see the findings".into();
        return vec![plain("Sheets", "none".into(), why, &[Rule::Sheets])];
    };
    let way = if tiling.is_landscape() {
        "landscape"
    } else {
        "portrait"
    };
    let paper = workpiece.board().template.paper.words();
    let about = format!("{} × {} {paper}, {way}", tiling.columns, tiling.rows);
    let count = tiling.tiles.len().to_string();
    let sheets = plain("Sheets", count, about, &[Rule::Sheets]);
    let nearest = tiling.nearest.as_ref().map(|(name, mm)| {
        let value = least(*mm, workpiece.units());
        plain(
            "Nearest to a joint",
            value,
            name.to_string(),
            &[Rule::Joints],
        )
    });
    [sheets].into_iter().chain(nearest).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::current::Current;
    use crate::panels::hand::{self, press, sees};
    use board::{Board, Wood};
    use egui_kittest::kittest::Queryable as _;

    fn panel(change: impl Fn(&mut Board) + 'static) -> egui_kittest::Harness<'static, Board> {
        hand::panel(700.0, move |ui, board| {
            change(board);
            let current = Current::of(board);
            let mut asked = Vec::new();
            ui.set_width(266.0);
            key_sizes_ui(ui, current.good().unwrap(), &mut asked);
            if !asked.is_empty() {
                board.title = format!("{asked:?}");
            }
        })
    }

    /// In the narrowest panel the names of two holes stand side by side, whole.
    #[test]
    fn sizes_stand_two_in_a_row_with_the_names_of_their_holes() {
        let panel = panel(|_| {});
        let (one, other) = (
            panel.get_by_label("Hole spacing").rect(),
            panel.get_by_label("Least wood between holes").rect(),
        );
        assert!(one.left() > other.left() && one.top() < other.top());
        let names = panel.get_by_label_contains(" – ");
        assert!(names.rect().right() <= one.left());
    }

    #[test]
    fn every_size_says_what_it_follows_from() {
        let board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let current = Current::of(&board);
        for size in sizes(current.good().unwrap()) {
            let is_typed = size.from.starts_with("Typed");
            let is_of_piece = ["Marble", "Hole spacing"].contains(&size.caption);
            assert_eq!(is_typed, is_of_piece, "{}: {}", size.caption, size.from);
        }
        let mut panel = panel(|_| {});
        panel.get_by_label("7 mm").hover();
        panel.run_steps(12);
        assert!(sees(&panel, "Distance of the centers"));
    }

    #[test]
    fn what_is_missing_leads_to_its_stage() {
        let mut panel = panel(|_| {});
        press(&mut panel, "Choose a wood");
        assert_eq!(panel.state().title, "[Stage(Wood)]");
        press(&mut panel, "Enter prices");
        assert_eq!(panel.state().title, "[Stage(HandOver)]");
    }

    #[test]
    fn a_board_of_known_wood_has_a_weight() {
        let panel = panel(|board| board.wood = Some(Wood::default()));
        assert!(!sees(&panel, "Choose a wood") && sees(&panel, " kg"));
    }

    #[test]
    fn wood_that_is_left_is_never_told_as_more() {
        assert_eq!(least(10.46, Units::Mm), "10.4 mm");
        assert_eq!(least(7.0, Units::Mm), "7 mm");
        assert_eq!(least(12.7, Units::INCH), "1/2\"");
    }
}
