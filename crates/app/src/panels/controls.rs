//! The controls, in the order of the work.

use board::{Board, HoleId, field};
use egui::{Button, ScrollArea, Ui, vec2};
use workshop::{Finding, Mend, Severity};

use super::findings::mark;
use super::rows::fitted;
use super::{
    base, blank, bores, calendar, colors, filling, finish, grooves, hardboard, jig, limits,
    machine, pattern, price, recess, repair, sums, template, wood,
};
use crate::command::Command;
use crate::current::Current;
use crate::printers::Printers;
use crate::stage::Stage;
use crate::theme::{self, Tokens};
use crate::widgets::{fields_ui, folded, section};

/// The parts that the controls change.
pub struct Controls<'a> {
    /// The document.
    pub board: &'a mut Board,
    /// The maker's printers.
    pub printers: &'a mut Printers,
    /// All holes that are chosen.
    pub chosen: &'a [HoleId],
    /// The hole among them that is shown.
    pub selected: &'a mut Option<HoleId>,
    /// Whether a change to it is made for every player.
    pub mirrored: &'a mut bool,
    /// The stage of the work whose controls are shown.
    pub stage: &'a mut Stage,
    /// Whether the controls of the chosen hole are to be brought into view.
    pub show_chosen: bool,
    /// The workpiece, or the fault that keeps it from being laid out.
    pub current: &'a Current,
    /// The holes that are to be lit while something about them is pointed at.
    pub lit: &'a mut Vec<HoleId>,
    /// The commands asked for.
    pub asked: &'a mut Vec<Command>,
}

/// The stages, and the controls of the one at hand, one section below the other.
pub fn controls_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    if controls.show_chosen {
        *controls.stage = Stage::LayOut;
    }
    stages_ui(ui, controls.stage, controls.current);
    let stage = *controls.stage;
    let area = ScrollArea::vertical()
        .id_salt(stage.label())
        .auto_shrink(false);
    area.show(ui, |ui| match stage {
        Stage::LayOut => lay_out_ui(ui, controls),
        Stage::Wood => wood_ui(ui, controls),
        Stage::Template => template_ui(ui, controls),
        Stage::Drill => drill_ui(ui, controls),
        Stage::Bench => bench_ui(ui, controls),
        Stage::Finish => finish_ui(ui, controls),
        Stage::HandOver => hand_over_ui(ui, controls),
    });
}

/// The stages, in as many rows as the panel needs for them, each with a mark where a finding is to be mended there.
fn stages_ui(ui: &mut Ui, chosen: &mut Stage, current: &Current) {
    let good = current.good();
    let findings = good.map_or(&[][..], |workpiece| workpiece.findings());
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(5.0, 5.0);
        for stage in Stage::ALL {
            let button =
                Button::selectable(*chosen == stage, stage.label()).frame_when_inactive(true);
            let button = ui.add(button);
            let held = held_words(findings, stage);
            if let Some((severity, _)) = &held {
                let color = Tokens::of(ui).severity(*severity);
                let corner = button.rect.right_top() + vec2(-2.0, 2.0);
                ui.painter()
                    .circle_filled(corner, 7.0, Tokens::of(ui).panel);
                mark(ui, corner, 0.8, *severity, color);
            }
            let held = held.map_or_else(String::new, |(_, words)| format!("\nHere: {words}"));
            // A screen reader hears it as the description of the tab.
            let hint = format!("{}{held}", stage.tooltip());
            if button.on_hover_text(hint).clicked() {
                *chosen = stage;
            }
        }
    });
    ui.add_space(theme::GAP);
}

/// The worst of the findings that are mended at a stage, and how many stops and cautions there are; none where all is well.
fn held_words(findings: &[Finding], stage: Stage) -> Option<(Severity, String)> {
    let count = |severity| {
        let is_it = |finding: &&Finding| {
            finding.severity == severity && Stage::of_rule(finding.rule) == stage
        };
        findings.iter().filter(is_it).count()
    };
    let told = [Severity::Stop, Severity::Caution].map(|severity| (severity, count(severity)));
    let (worst, _) = *told.iter().find(|(_, count)| *count > 0)?;
    let words = told.iter().filter(|(_, count)| *count > 0);
    let words = words.map(|(severity, count)| {
        let many = if *count == 1 { "" } else { "s" };
        format!("{count} {}{many}", severity.label())
    });
    Some((worst, words.collect::<Vec<_>>().join(", ")))
}

fn lay_out_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Board", true, |ui| board_ui(ui, board, controls.asked));
    section(ui, "Pattern", true, |ui| {
        pattern::pattern_ui(ui, board, controls.current, controls.asked);
    });
    section(ui, "Home and start", true, |ui| {
        pattern::lanes_ui(ui, board, controls.current);
    });
    section(ui, "Center", false, |ui| bores::center_ui(ui, board));
    section(ui, "Pieces", true, |ui| {
        bores::pieces_ui(ui, board, controls.asked);
    });
    section(ui, "Weight and magnets", false, |ui| {
        bores::piece::piece_ui(ui, board);
    });
    let chosen = folded(ui, "Edit holes", controls.show_chosen, |ui| {
        let mut chosen = bores::hole::Chosen {
            board: controls.board,
            holes: controls.chosen,
            selected: controls.selected,
            mirrored: controls.mirrored,
        };
        bores::hole::hole_ui(ui, &mut chosen, controls.current);
    });
    if controls.show_chosen {
        chosen.scroll_to_me(Some(egui::Align::Max));
    }
    let board = &mut *controls.board;
    section(ui, "Minimum sizes", false, |ui| {
        limits::limits_ui(ui, board, controls.asked);
    });
}

fn wood_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Species", true, |ui| wood::wood_ui(ui, board));
    section(ui, "Blank", true, |ui| {
        blank::stock::stock_ui(ui, board, controls.current, controls.asked);
    });
    section(ui, "Joining", true, |ui| {
        blank::joining::joining_ui(ui, board, controls.current, controls.asked);
    });
    section(ui, "Screws in the underside", false, |ui| {
        blank::joining::screws_ui(ui, board);
    });
    section(ui, "Seasonal movement", false, |ui| {
        wood::seasons_ui(ui, board);
    });
    section(ui, "Base", false, |ui| base::base_ui(ui, board));
}

fn template_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Template", true, |ui| {
        template::template_ui(ui, board);
    });
    section(ui, "Printer", true, |ui| {
        template::printer::printer_ui(ui, board, controls.printers);
    });
    section(ui, "Hardboard", true, |ui| {
        hardboard::hardboard_ui(ui, board, controls.current, controls.asked);
    });
    section(ui, "Accuracy", true, |ui| {
        template::accuracy::accuracy_ui(ui, board, controls.current);
    });
}

fn drill_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Bores", true, |ui| {
        bores::bores_ui(ui, board, controls.asked);
    });
    section(ui, "Jig and order", true, |ui| {
        jig::jig_ui(ui, board);
    });
    section(ui, "Bits you own", false, |ui| jig::tools_ui(ui, board));
    section(ui, "Machine", true, |ui| {
        machine::machine_ui(ui, board, controls.current);
    });
    section(ui, "Repair", false, |ui| {
        repair::repair_ui(ui, board, controls.current);
    });
}

fn bench_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Grooves", true, |ui| {
        grooves::grooves_ui(ui, board, controls.current);
    });
    section(ui, "Storage below", true, |ui| {
        recess::storage_ui(ui, board, controls.current);
        recess::lid_ui(ui, board, controls.current);
    });
    section(ui, "Filling", true, |ui| {
        filling::filling_ui(ui, board, controls.current, controls.lit);
    });
    section(ui, "Sums", true, |ui| {
        sums::sums_ui(ui, board, controls.current);
    });
}

fn finish_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Players' colors", true, |ui| {
        colors::players_ui(ui, board);
    });
    section(ui, "Colors of the board", true, |ui| {
        colors::colors_ui(ui, board);
    });
    section(ui, "Finish coats", true, |ui| {
        finish::finish_ui(ui, board, controls.current);
    });
}

fn hand_over_ui(ui: &mut Ui, controls: &mut Controls<'_>) {
    let board = &mut *controls.board;
    section(ui, "Calendar", true, |ui| {
        calendar::order_ui(ui, board, controls.current);
    });
    section(ui, "Your hours", false, |ui| calendar::hours_ui(ui, board));
    section(ui, "Own times", false, |ui| {
        calendar::times_ui(ui, board, controls.current);
    });
    section(ui, "Work done", false, |ui| {
        calendar::done_ui(ui, board, controls.current);
    });
    section(ui, "Shopping and price", true, |ui| {
        price::price_ui(ui, board, controls.current);
    });
    section(ui, "Quote", true, |ui| price::quote_ui(ui, board));
}

fn board_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    fields_ui(ui, board, &[&field::TITLE, &field::UNITS]);
    fitted(ui, board, &field::BOARD_DIAMETER, Mend::FitBoard, asked);
    fields_ui(ui, board, &[&field::BOARD_THICKNESS, &field::ROUNDOVER]);
}
