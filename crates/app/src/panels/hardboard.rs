//! Controls of the templates of hardboard: for a router with a guide bushing, and of one sector that is turned.

use board::{Board, Layout, Measure, Router, Units, field, in_a_row};
use egui::Ui;
use workshop::{Caution, Mend, SectorPlan, plunges, router_settings};

use super::rows::{amount, fact, fitted};
use crate::command::Command;
use crate::current::Current;
use crate::widgets::{cautions, field_ui, fields_ui};

/// Both templates, each with what follows from it.
pub fn hardboard_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    router_ui(ui, board, current, asked);
    sector_ui(ui, board, current);
    let minded: &[Caution] = match (board.router.is_some(), board.sector_jig.is_some()) {
        (true, true) => &[
            Caution::Router,
            Caution::DrillPress,
            Caution::Eyes,
            Caution::Dust,
            Caution::Noise,
        ],
        (true, false) => &[
            Caution::Router,
            Caution::Eyes,
            Caution::Dust,
            Caution::Noise,
        ],
        (false, true) => &[
            Caution::DrillPress,
            Caution::Eyes,
            Caution::Dust,
            Caution::Noise,
        ],
        (false, false) => return,
    };
    cautions(ui, minded);
}

fn router_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    let units = board.units;
    let has_bits = !board.tools.straight.is_empty() || !board.tools.round_nose.is_empty();
    let is_owned = has_bits && !board.tools.bushings.is_empty();
    for &field in field::ROUTER_FIELDS {
        if is_owned && field == &field::BUSHING {
            fitted(ui, board, field, Mend::OwnedRouter, asked);
        } else {
            field_ui(ui, board, field);
        }
    }
    let Some(router) = board.router else {
        return;
    };
    if let Some(workpiece) = current.good() {
        router_facts(ui, router, workpiece.layout(), units);
    }
}

/// The settings of the router, from where its bit touches the hardboard.
fn router_facts(ui: &mut Ui, router: Router, layout: &Layout, units: Units) {
    let mm = |mm| Measure::mm(mm).shown(units);
    amount(
        ui,
        "Template holes larger by",
        &mm(router.wider()),
        "Guide bushing less router bit",
    );
    for plunge in plunges(&router_settings(layout, router)) {
        let roles: Vec<&str> = plunge.roles.iter().map(|role| role.id()).collect();
        let words = format!("{} for {} holes", mm(plunge.mm), in_a_row(&roles));
        // Two lines with the same caption would otherwise have the same id.
        ui.push_id(&words, |ui| {
            fact(
                ui,
                "Set the plunge to",
                &words,
                "Depth of the bore and thickness of the hardboard",
            );
        });
    }
}

fn sector_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    let units = board.units;
    fields_ui(ui, board, field::SECTOR_FIELDS);
    if board.sector_jig.is_none() {
        return;
    }
    let plan = current.good().and_then(|workpiece| workpiece.sector_jig());
    // A finding says why there is no jig.
    if let Some(Ok(plan)) = plan {
        sector_facts(ui, plan, units);
    }
}

/// The holes that the pins go into, and the error that their play adds up to.
fn sector_facts(ui: &mut Ui, plan: &SectorPlan, units: Units) {
    let mm = |mm| Measure::mm(mm).shown(units);
    let degrees = |degrees| Measure::degrees(degrees).shown(units);
    for hole in &plan.index {
        let words = format!("{}, Ø {}", hole.name, mm(2.0 * hole.mouth.radius));
        ui.push_id(&words, |ui| {
            fact(
                ui,
                "Pin stands in",
                &words,
                "From the holes of one sector and the number of index pins",
            );
        });
    }
    amount(
        ui,
        "Typical angle error",
        &degrees(plan.turned.likely),
        "From the pin slop and how far out the pins stand",
    );
    amount(
        ui,
        "Worst angle error",
        &degrees(plan.turned.worst),
        "From the pin slop and how far out the pins stand",
    );
    if let Some(closing) = &plan.closing {
        amount(
            ui,
            "Wood where the circle closes",
            &mm(closing.wood),
            "From the hole spacing and the hole sizes",
        );
        amount(
            ui,
            "Typical remaining",
            &mm(closing.likely),
            "Wood where the circle closes, less the angle errors combined",
        );
        amount(
            ui,
            "Worst remaining",
            &mm(closing.worst),
            "Wood where the circle closes, less all angle errors added",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into};
    use board::{Bore, Bottom, Center, TemplateCenter};
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;
    use testkit::assert_near;

    fn panel() -> Harness<'static, Board> {
        hand::panel(900.0, |ui, board| {
            let current = Current::of(board);
            hardboard_ui(ui, board, &current, &mut Vec::new());
        })
    }

    /// Bores 5 mm deep under hardboard of 6 mm; 1/4 in is 6.35 mm.
    #[test]
    fn the_plunge_follows_the_hardboard_and_the_bores() {
        let mut panel = panel();
        assert!(!sees(&panel, "Set the plunge to"));
        press(&mut panel, "Make router template");
        assert!(sees(&panel, "11 mm for track, home and start holes"));
        press(&mut panel, "▲ Router");
        assert!(sees(&panel, "Clamp the work"));
        type_into(&mut panel, "Hardboard", "1/4\"");
        assert!(sees(&panel, "11.35 mm for track, home and start holes"));
        type_into(&mut panel, "Guide bushing", "18");
        type_into(&mut panel, "Bushing length", "4.5");
        type_into(&mut panel, "Router bit", "10");
        let router = panel.state().router.unwrap();
        assert_near!(router.hardboard, 6.35, 1e-9);
        assert_near!(router.reach, 4.5, 0.0);
        assert_near!(router.wider(), 8.0, 0.0);
        assert!(sees(&panel, "8 mm"));
        panel.state_mut().bores.start = Bore {
            diameter: 12.0,
            depth: 8.0,
            bottom: Bottom::Flat,
        };
        panel.run();
        assert!(
            sees(&panel, "11.35 mm for track and home holes")
                && sees(&panel, "14.35 mm for start holes")
        );
    }

    #[test]
    fn the_center_of_the_template_is_the_makers_choice() {
        let mut panel = panel();
        press(&mut panel, "Make router template");
        choose(
            &mut panel,
            "Template center",
            TemplateCenter::Undrilled.label(),
        );
        let router = panel.state().router.unwrap();
        assert_eq!(router.center, TemplateCenter::Undrilled);
    }

    #[test]
    fn the_sector_jig_tells_where_its_pins_go_and_what_is_left() {
        let mut panel = panel();
        press(&mut panel, "Make one-player jig");
        assert!(sees(&panel, "T1-") && sees(&panel, "Worst remaining"));
        type_into(&mut panel, "Index pins", "2");
        assert_eq!(panel.state().sector_jig.unwrap().pins, 2);
        assert_eq!(panel.query_all_by_label("Pin stands in").count(), 2);
        type_into(&mut panel, "Pin slop", "0");
        assert_near!(panel.state().sector_jig.unwrap().play, 0.0, 0.0);
        // Without play nothing is lost of 7 mm.
        assert_eq!(panel.query_all_by_label("7 mm").count(), 3);
        press(&mut panel, "Make one-player jig");
        assert_eq!(panel.state().sector_jig, None);
        assert!(!sees(&panel, "Index pins"));
    }

    #[test]
    fn a_jig_that_cannot_be_has_no_figures() {
        let mut panel = panel();
        press(&mut panel, "Make one-player jig");
        panel.state_mut().center = Center::Nothing;
        panel.run();
        assert!(sees(&panel, "Pin slop") && !sees(&panel, "Wood where the circle closes"));
    }
}
