//! Controls of what was measured after the work, and of holes that went wrong.

use board::{Board, Distance, WrongHole, field, show_length};
use egui::Ui;
use workshop::{Workpiece, repairs};

use super::rows::{add_button, fact, remark};
use crate::current::Current;
use crate::widgets::{entry_ui, fields_ui};

/// Distances that were measured, each with what it should be, then the holes that went wrong, each with its remedy.
pub fn repair_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    remark(
        ui,
        "After taping or drilling, type the distances you measure; the findings say what slipped. The Repair page under Export \
         lists distances to measure.",
    );
    fields_ui(ui, board, &[&field::MEASURED_ON, &field::READING_ERROR]);
    distances_ui(ui, board, current.good().map(AsRef::as_ref));
    ui.separator();
    wrong_ui(ui, board, current.good().map(AsRef::as_ref));
}

fn distances_ui(ui: &mut Ui, board: &mut Board, workpiece: Option<&Workpiece>) {
    let mut gone = None;
    for at in 0..board.measured.distances.len() {
        for field in field::DISTANCE_FIELDS {
            entry_ui(ui, board, field, at);
        }
        should_be(ui, board, workpiece, at);
        if ui.button(format!("Remove distance {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.measured.distances.remove(at);
    }
    if add_button(
        ui,
        "Add a distance",
        board.measured.distances.len(),
        &field::DISTANCES,
    ) {
        let last = board.measured.distances.last();
        let next = last.map_or_else(Distance::default, |last| Distance {
            distance: 0.0,
            ..*last
        });
        board.measured.distances.push(next);
    }
}

/// The distance as laid out, where both holes are there.
fn should_be(ui: &mut Ui, board: &Board, workpiece: Option<&Workpiece>, at: usize) {
    let (Some(workpiece), Some(distance)) = (workpiece, board.measured.distances.get(at)) else {
        return;
    };
    let ends = [distance.from, distance.to].map(|end| workpiece.layout().hole(end));
    if let [Some(from), Some(to)] = ends {
        let mm = show_length(from.center.distance(to.center), board.units);
        ui.push_id(at, |ui| {
            fact(
                ui,
                "Should be",
                &mm,
                "From the plan: between the centers of the two holes",
            );
        });
    }
}

fn wrong_ui(ui: &mut Ui, board: &mut Board, workpiece: Option<&Workpiece>) {
    let told = workpiece.map(repairs).unwrap_or_default();
    let mut gone = None;
    for at in 0..board.wrong.len() {
        for field in field::WRONG_FIELDS {
            entry_ui(ui, board, field, at);
        }
        let hole = board.wrong.get(at).map(|wrong| wrong.hole);
        if let Some(repair) = told.iter().find(|repair| Some(repair.hole.id()) == hole) {
            remark(ui, &repair.words(board.units).remedy);
        }
        if ui.button(format!("Remove wrong {}", at + 1)).clicked() {
            gone = Some(at);
        }
    }
    if let Some(at) = gone {
        board.wrong.remove(at);
    }
    if add_button(
        ui,
        "Add a misdrilled hole",
        board.wrong.len(),
        &field::WRONG_HOLES,
    ) {
        board.wrong.push(WrongHole::default());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into, write_into};
    use board::Fault;
    use testkit::assert_near;

    #[test]
    fn distances_are_typed_beside_what_they_should_be() {
        let mut bench = hand::panel(900.0, |ui, board| {
            let current = Current::of(board);
            repair_ui(ui, board, &current);
        });
        press(&mut bench, "Add a distance");
        assert!(sees(&bench, "Should be"));
        write_into(&mut bench, "Distance 1 to", "T4-01");
        type_into(&mut bench, "Distance 1", "400.5");
        let typed = bench.state().measured.distances[0];
        assert_eq!(typed.to, "T4-01".parse().unwrap());
        assert_near!(typed.distance, 400.5, 1e-9);
        press(&mut bench, "Remove distance 1");
        assert!(bench.state().measured.distances.is_empty());
    }

    #[test]
    fn a_hole_gone_wrong_gets_its_remedy_beside_it() {
        let mut bench = hand::panel(900.0, |ui, board| {
            let current = Current::of(board);
            repair_ui(ui, board, &current);
        });
        press(&mut bench, "Add a misdrilled hole");
        choose(&mut bench, "Wrong 1, mistake", "too deep");
        type_into(&mut bench, "Wrong 1, deeper", "3");
        assert_eq!(bench.state().wrong[0].fault, Fault::Deep { by: 3.0 });
        bench.run();
        assert!(sees(&bench, "glue a disc 3 mm thick"));
    }
}
