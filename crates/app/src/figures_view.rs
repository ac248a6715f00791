//! The table of every figure, with its formula and its source; words find a figure in it.

use board::{Measure, capital};
use egui::{Align, Label, Layout, RichText, ScrollArea, TextEdit, Ui, vec2};
use workshop::{Sum, Workpiece};

use crate::theme::{self, Tokens};

/// Width from which the formula and the source stand beside a figure, in points.
const BESIDE: f32 = 620.0;
/// Shares of the width that name, value, formula and source have there.
const SHARES: [f32; 4] = [0.27, 0.16, 0.35, 0.22];

/// The words sought, and whether all of many alike are shown.
#[derive(Default)]
pub struct FiguresViewState {
    sought: String,
    all: bool,
}

/// A figure in words.
struct Row {
    name: String,
    value: String,
    formula: String,
    source: String,
}

/// The table, below the field that searches it.
pub fn figures_view_ui(ui: &mut Ui, workpiece: &Workpiece, state: &mut FiguresViewState) {
    let room = egui::Frame::new().inner_margin(theme::PART);
    room.show(ui, |ui| {
        search_ui(ui, state);
        ui.add_space(theme::GAP);
        let sought: Vec<String> = words(&state.sought);
        // A search covers all figures.
        let groups = groups(workpiece, state.all || !sought.is_empty());
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - theme::GAP);
            let mut is_empty = true;
            for (heading, rows, notes) in groups {
                let is_in = |row: &&Row| is_found(&heading, row, &sought);
                let rows: Vec<&Row> = rows.iter().filter(is_in).collect();
                if rows.is_empty() && (!sought.is_empty() || notes.is_empty()) {
                    continue;
                }
                is_empty = false;
                group_ui(ui, &heading, &rows);
                for note in notes.iter().filter(|_| sought.is_empty()) {
                    ui.label(theme::quiet(note));
                }
                ui.add_space(theme::PART);
            }
            if is_empty {
                ui.label("No figure has these words. Try a shorter one, such as weight or wood.");
                if ui.button("Show all figures").clicked() {
                    state.sought.clear();
                }
            }
        });
    });
}

fn search_ui(ui: &mut Ui, state: &mut FiguresViewState) {
    ui.horizontal_wrapped(|ui| {
        let label = ui.label("Find a figure").id;
        let field = TextEdit::singleline(&mut state.sought)
            .hint_text("weight, depth, season")
            .desired_width(220.0);
        ui.add(field).labelled_by(label);
        ui.add_space(theme::GAP);
        ui.checkbox(&mut state.all, "Show every one").on_hover_text(
            "Of figures that differ only in their distance from the center, three are shown",
        );
    });
}

fn words(sought: &str) -> Vec<String> {
    let words = sought.split_whitespace().map(str::to_lowercase);
    words.collect()
}

fn is_found(heading: &str, row: &Row, sought: &[String]) -> bool {
    let all = format!("{heading} {} {} {}", row.name, row.formula, row.source).to_lowercase();
    sought.iter().all(|word| all.contains(word))
}

/// The figures by subject, each subject with its notes: the board itself first.
fn groups(workpiece: &Workpiece, all: bool) -> Vec<(String, Vec<Row>, Vec<String>)> {
    let units = workpiece.units();
    let row = |sum: &Sum| Row {
        name: capital(&sum.titled(units)),
        value: sum.shown(units),
        formula: sum.formula.into(),
        source: sum.source.into(),
    };
    let of_group = |group: &workshop::SumGroup| {
        let rows = if all {
            group.sums.iter().map(row).collect()
        } else {
            group.brief().into_iter().map(row).collect()
        };
        (capital(group.heading), rows, group.notes.clone())
    };
    let board = ("Board".to_owned(), of_board(workpiece), Vec::new());
    let sums = workpiece.sums().iter().map(of_group);
    [board].into_iter().chain(sums).collect()
}

/// The figures of the layout and its paper.
fn of_board(workpiece: &Workpiece) -> Vec<Row> {
    let (figures, units) = (workpiece.figures(), workpiece.units());
    let row = |name: &str, value: String, formula: &str| Row {
        name: name.into(),
        value,
        formula: formula.into(),
        source: "geometry".into(),
    };
    let length = |mm: f64| Measure::mm(mm).shown(units);
    let mut rows = vec![row(
        "Holes",
        figures.holes.to_string(),
        "counted, with the center and extra holes",
    )];
    if let Some(thinnest) = &figures.smallest_web {
        let [a, b] = thinnest.holes;
        let name = format!("Least wood between holes, {a} – {b}");
        let formula =
            "distance of the centers less both radii, or less where the holes come nearer below";
        rows.push(row(&name, length(thinnest.mm), formula));
    }
    if let Some((rim, hole)) = &figures.smallest_rim {
        let name = format!("Rim margin, {hole}");
        let formula = "radius of the flat inside the roundover, less the hole's distance from the pin and its radius";
        rows.push(row(&name, length(*rim), formula));
    }
    rows.push(row(
        "Farthest hole center",
        length(figures.reach),
        "largest distance of a hole's center from the center pin",
    ));
    if let Ok(tiling) = workpiece.tiling() {
        let count = tiling.tiles.len().to_string();
        rows.push(row("Sheets", count, "columns times rows of paper"));
        if let Some((hole, mm)) = &tiling.nearest {
            let name = format!("Nearest to a joint, {hole}");
            let formula = "least distance of a hole's center from where two sheets are taped";
            rows.push(row(&name, length(*mm), formula));
        }
    }
    rows
}

fn group_ui(ui: &mut Ui, heading: &str, rows: &[&Row]) {
    ui.label(theme::heading(heading));
    ui.add_space(theme::TIGHT);
    let is_beside = ui.available_width() >= BESIDE;
    for (at, row) in rows.iter().enumerate() {
        let ground = if at % 2 == 0 {
            Tokens::of(ui).panel
        } else {
            egui::Color32::TRANSPARENT
        };
        let frame = egui::Frame::new()
            .fill(ground)
            .corner_radius(theme::TIGHT)
            .inner_margin(egui::Margin::symmetric(
                theme::GAP as i8,
                theme::TIGHT as i8,
            ));
        frame.show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            if is_beside {
                wide_ui(ui, row);
            } else {
                narrow_ui(ui, row);
            }
        });
    }
}

/// A figure in one line of four columns.
fn wide_ui(ui: &mut Ui, row: &Row) {
    let gap = theme::PART;
    let width = ui.available_width() - 3.0 * gap;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = gap;
        let mut cell = |share: f32, align: Align, words: RichText| {
            let size = vec2(share * width, 0.0);
            ui.allocate_ui_with_layout(size, Layout::top_down(align), |ui| {
                ui.set_width(size.x);
                ui.add(Label::new(words).wrap());
            });
        };
        let [name, value, formula, source] = SHARES;
        cell(name, Align::Min, RichText::new(&row.name));
        cell(value, Align::Max, theme::bold(&row.value));
        cell(formula, Align::Min, RichText::new(&row.formula));
        cell(source, Align::Min, theme::quiet(&row.source));
    });
}

/// A figure with its formula and its source below it.
fn narrow_ui(ui: &mut Ui, row: &Row) {
    ui.spacing_mut().item_spacing.y = theme::HAIR;
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
            ui.label(theme::bold(&row.value));
            ui.with_layout(Layout::left_to_right(Align::Min), |ui| {
                ui.add(Label::new(&row.name).wrap());
            });
        });
    });
    let words = format!("{} · {}", row.formula, row.source);
    ui.add(Label::new(theme::quiet(words)).wrap());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::current::Current;
    use crate::panels::hand::{self, press, sees, write_into};
    use board::Board;
    use egui_kittest::kittest::Queryable as _;

    fn table() -> egui_kittest::Harness<'static, Board> {
        let mut state = FiguresViewState::default();
        hand::panel(4000.0, move |ui, board| {
            board.pattern = geometry::Pattern::Lobes { depth: 0.15 };
            board.blank.diameter = 600.0;
            let current = Current::of(board);
            figures_view_ui(ui, current.good().unwrap(), &mut state);
        })
    }

    #[test]
    fn of_many_speeds_the_first_few_stand_in_the_table_until_all_are_asked_for() {
        let mut table = table();
        assert!(sees(&table, "Nearest metric Forstner bit, 12 mm"));
        let speeds = |table: &egui_kittest::Harness<'static, Board>| {
            let speeds = table.query_all_by_label_contains("Speed at which the marble rolls out");
            speeds.count()
        };
        assert_eq!(speeds(&table), 3);
        press(&mut table, "Show every one");
        assert!(speeds(&table) > 3);
    }

    #[test]
    fn figures_are_found_by_words_of_their_names_and_formulas() {
        let mut table = table();
        assert!(sees(&table, "Farthest hole center") && sees(&table, "Marble below the top face"));
        write_into(&mut table, "Find a figure", "below top");
        assert!(!sees(&table, "Farthest hole center") && sees(&table, "Marble below the top face"));
        write_into(&mut table, "Find a figure", "xyzzy");
        press(&mut table, "Show all figures");
        assert!(sees(&table, "Farthest hole center"));
    }

    /// A figure without its formula could not be checked with a pencil.
    #[test]
    fn every_figure_has_a_formula_and_a_source_in_sight() {
        let workpiece = Workpiece::of(&Board::default()).unwrap();
        for (_, rows, _) in groups(&workpiece, true) {
            for row in rows {
                assert!(
                    !row.formula.is_empty() && !row.source.is_empty(),
                    "{}",
                    row.name
                );
            }
        }
    }
}
