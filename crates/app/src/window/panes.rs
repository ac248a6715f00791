//! Where the panels stand: side by side where there is room, one behind the other where there is not.
//!
//! A window of 1440 points enlarged to 200 % has 720 points left, and still shows everything.

use egui::{CentralPanel, Frame, Margin, Panel, Ui, UiBuilder};

use workshop::{Finding, Severity};

use super::App;
use crate::command::Command;
use crate::panels::bar::bar_ui;
use crate::panels::controls::{Controls, controls_ui};
use crate::panels::findings::findings_ui;
use crate::panels::status::status_ui;
use crate::panels::tools::tools_ui;
use crate::theme::{self, Tokens};
use crate::view::{Face, Pane};

/// Width from which controls, board and findings stand side by side, in points.
const ALL_BESIDE: f32 = 1060.0;
/// Width from which the board has one panel beside it.
const ONE_BESIDE: f32 = 600.0;
/// Width that the board keeps beside both panels, as long as the findings can be read.
const BOARD_WIDTH: f32 = 380.0;
/// Width of the findings: the least, the least where there is room, and the most.
const FINDINGS: (f32, f32, f32) = (248.0, theme::FINDINGS_WIDTH, 420.0);
/// Most width of the controls.
const WIDE_CONTROLS: f32 = 460.0;

impl App {
    /// Bar, panels, board and status line.
    pub(super) fn panels(&mut self, ui: &mut Ui, commands: &mut Vec<Command>) {
        self.view.lit.clear();
        let tokens = Tokens::of(ui);
        let width = ui.available_width();
        let bar = Frame::new()
            .fill(tokens.bench)
            .inner_margin(Margin::symmetric(12, 6));
        Panel::top("bar").frame(bar).show(ui, |ui| {
            bar_ui(
                ui,
                &self.session,
                &self.settings.recent,
                &self.view,
                commands,
            );
        });
        Panel::bottom("status")
            .frame(bar)
            .exact_size(34.0)
            .show(ui, |ui| {
                status_ui(ui, &mut self.view, &self.jobs, &self.studies);
            });
        self.view.pointed = None;
        if width >= ALL_BESIDE {
            self.all_beside(ui, width);
        } else if width >= ONE_BESIDE {
            self.one_beside(ui);
        } else {
            self.one_at_a_time(ui);
        }
    }

    fn all_beside(&mut self, ui: &mut Ui, width: f32) {
        Panel::left("controls")
            .frame(side(ui))
            .default_size(theme::CONTROLS_WIDTH)
            .size_range(theme::CONTROLS_WIDTH..=WIDE_CONTROLS)
            .show(ui, |ui| within(ui, |ui| self.controls(ui)));
        let (least, usual, most) = FINDINGS;
        let room = width - theme::CONTROLS_WIDTH - BOARD_WIDTH;
        Panel::right("findings")
            .frame(side(ui))
            .default_size(usual)
            .size_range(room.clamp(least, usual)..=room.clamp(least, most))
            .show(ui, |ui| {
                within(ui, |ui| findings_ui(ui, &self.current, &mut self.view));
            });
        self.board(ui);
    }

    fn one_beside(&mut self, ui: &mut Ui) {
        if self.view.show_chosen || self.view.pane == Pane::Board {
            self.view.pane = Pane::Controls;
        }
        Panel::left("side")
            .frame(side(ui))
            .exact_size(theme::CONTROLS_WIDTH)
            .show(ui, |ui| {
                self.tabs(ui, &[Pane::Controls, Pane::Findings]);
                ui.add_space(theme::GAP);
                within(ui, |ui| self.front(ui));
            });
        self.board(ui);
    }

    fn one_at_a_time(&mut self, ui: &mut Ui) {
        Panel::top("tabs").frame(side(ui)).show(ui, |ui| {
            self.tabs(ui, &[Pane::Board, Pane::Controls, Pane::Findings]);
        });
        if self.view.pane == Pane::Board {
            self.board(ui);
        } else {
            self.view.readout.clear();
            CentralPanel::default()
                .frame(side(ui))
                .show(ui, |ui| within(ui, |ui| self.front(ui)));
        }
    }

    fn tabs(&mut self, ui: &mut Ui, panes: &[Pane]) {
        ui.horizontal(|ui| {
            for &pane in panes {
                let title = self.title(pane);
                ui.selectable_value(&mut self.view.pane, pane, title);
            }
        });
    }

    fn title(&self, pane: Pane) -> String {
        match pane {
            Pane::Board => "Drawing".into(),
            Pane::Controls => "Controls".into(),
            Pane::Findings => {
                let good = self.current.good();
                findings_title(good.map_or(&[], |workpiece| workpiece.findings()))
            }
        }
    }

    fn front(&mut self, ui: &mut Ui) {
        match self.view.pane {
            Pane::Board | Pane::Controls => self.controls(ui),
            Pane::Findings => findings_ui(ui, &self.current, &mut self.view),
        }
    }

    fn controls(&mut self, ui: &mut Ui) {
        let before = (!self.shop.shop.is_empty()).then(|| self.session.board.clone());
        let chosen = self.view.chosen();
        let mut controls = Controls {
            board: &mut self.session.board,
            printers: &mut self.printers,
            chosen: &chosen,
            selected: &mut self.view.selected,
            mirrored: &mut self.view.mirrored,
            choice: None,
            stage: &mut self.view.stage,
            folds: &mut self.settings.folds,
            show_chosen: core::mem::take(&mut self.view.show_chosen),
            lit: &mut self.view.lit,
            current: &self.current,
            asked: &mut self.view.asked,
        };
        controls_ui(ui, &mut controls);
        if let Some(choice) = controls.choice.take() {
            self.view.selected = choice.first().copied();
            self.view.group = choice;
        }
        if let Some(before) = before.filter(|before| *before != self.session.board) {
            self.shop.shop.give_new(&before, &mut self.session.board);
        }
        self.current.print_on(self.printers.correction());
        // Fields change the document: what follows from it is worked out before it is shown.
        self.current.refresh(&self.session.board);
    }

    /// The tabs over the drawing.
    fn faces(&mut self, ui: &mut Ui) {
        ui.add_space(theme::TIGHT);
        // Where the row is broken, both lines begin under each other.
        let room = Frame::new().outer_margin(Margin {
            left: theme::GAP as i8,
            ..Margin::ZERO
        });
        room.show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                for face in Face::ALL {
                    ui.selectable_value(&mut self.view.face, face, face.label());
                }
                if self.view.face == Face::Board {
                    ui.add_space(theme::GAP);
                    tools_ui(ui, &mut self.view, &self.current);
                }
            });
        });
    }

    fn board(&mut self, ui: &mut Ui) {
        let bench = Frame::new().fill(Tokens::of(ui).bench);
        CentralPanel::default().frame(bench).show(ui, |ui| {
            within(ui, |ui| {
                self.faces(ui);
                self.drawing(ui);
            });
        });
    }
}

/// The tab of the findings: whoever works at the controls sees there when something stops the board.
fn findings_title(findings: &[Finding]) -> String {
    let worst = [Severity::Stop, Severity::Caution];
    let told = worst.into_iter().filter_map(|severity| {
        let is_so = |finding: &&Finding| finding.severity == severity;
        let count = findings.iter().filter(is_so).count();
        (count > 0).then(|| board::several(count, severity.label()))
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        format!("Figures and findings ({})", findings.len())
    } else {
        format!("Findings: {}", told.join(", "))
    }
}

/// Draws in all of the room that is left, and takes no more of it: a panel keeps its width whatever stands in it.
fn within(ui: &mut Ui, content: impl FnOnce(&mut Ui)) {
    /// Room for the frame around what has the focus.
    const FOCUS: f32 = 4.0;
    let room = ui.available_rect_before_wrap();
    let mut inside = ui.new_child(UiBuilder::new().max_rect(room));
    inside.shrink_clip_rect(room.expand(FOCUS));
    content(&mut inside);
    ui.advance_cursor_after_rect(room);
}

fn side(ui: &Ui) -> Frame {
    Frame::new()
        .fill(Tokens::of(ui).panel)
        .inner_margin(Margin::same(12))
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use egui::{Pos2, Rect, Vec2, vec2};
    use egui_kittest::Harness;
    use egui_kittest::kittest::{NodeT as _, Queryable as _};

    use super::*;
    use crate::fake::Fake;
    use crate::settings::Settings;
    use crate::stage::Stage;

    fn window(size: Vec2) -> Harness<'static, App> {
        let builder = Harness::builder()
            .with_size(size)
            .with_context_setup(theme::install);
        let mut window = builder.build_eframe(|cc| {
            App::new(
                &cc.egui_ctx,
                Settings::default(),
                Arc::new(Fake::new()),
                None,
            )
        });
        window.run();
        window
    }

    /// The place of a control, which must lie inside the window and beside those before it.
    fn lies_free(window: &Harness<'static, App>, size: Vec2, label: &str, others: &mut Vec<Rect>) {
        let rect = window.get_by_label(label).rect();
        assert!(
            Rect::from_min_size(Pos2::ZERO, size).contains_rect(rect),
            "{label} at {rect:?} in {size:?}"
        );
        let over = others
            .iter()
            .find(|other| other.shrink(1.0).intersects(rect));
        assert!(over.is_none(), "{label} at {rect:?} covers {over:?}");
        others.push(rect);
    }

    #[test]
    fn the_bar_keeps_its_buttons_apart_at_every_width() {
        for width in [450.0, 500.0, 600.0, 640.0, 720.0, 860.0, 900.0, 1440.0] {
            let size = vec2(width, 450.0);
            let (window, mut others) = (window(size), Vec::new());
            for label in [
                "File",
                "Edit",
                "View",
                "Help",
                "mm",
                "in",
                "Export templates",
            ] {
                lies_free(&window, size, label, &mut others);
            }
        }
    }

    /// A change of stage or face moves neither the drawing nor what is under the pointer.
    #[test]
    fn panels_keep_their_width_whatever_is_in_them() {
        for width in [900.0, 1280.0] {
            let mut window = window(vec2(width, 600.0));
            let tab = |window: &Harness<'static, App>| window.get_by_label("Plan").rect();
            let before = tab(&window);
            for label in Stage::ALL.map(Stage::label) {
                window.get_by_label(label).click();
                window.run_steps(4);
                assert_eq!(tab(&window), before, "{label} at {width}");
            }
            for face in Face::ALL {
                window.state_mut().view.face = face;
                window.run_steps(4);
                assert_eq!(tab(&window).min, before.min, "{face:?} at {width}");
            }
        }
    }

    #[test]
    fn a_window_of_900_points_leaves_the_drawing_half_of_it() {
        let window = window(vec2(900.0, 600.0));
        assert!(window.get_by_label("Board plan").rect().width() >= 450.0);
        window.get_by_label_contains("Findings: 1 caution");
    }

    #[test]
    fn a_window_of_720_points_shows_the_board_beside_one_panel() {
        let mut window = window(vec2(720.0, 450.0));
        assert!(window.get_by_label("Board plan").rect().width() > 380.0);
        window.get_by_label("Board diameter");
        window.get_by_label_contains("Findings: 1 caution").click();
        window.run();
        window.get_by_label("Least between holes");
        window.get_by_label("Board plan");
        assert!(window.query_by_label("Board diameter").is_none());
    }

    /// A window of 900 by 600 points enlarged to 200 %.
    #[test]
    fn every_dialog_lies_inside_a_window_of_450_points() {
        use egui::{Key, Modifiers};
        let size = vec2(450.0, 300.0);
        for (key, buttons) in [
            (Key::N, ["Begin", "Cancel"]),
            (Key::E, ["Export", "Cancel"]),
            (Key::O, ["Open", "Cancel"]),
        ] {
            let mut window = window(size);
            window.key_press_modifiers(Modifiers::COMMAND, key);
            window.run_steps(8);
            for label in buttons {
                lies_free(&window, size, label, &mut Vec::new());
            }
        }
    }

    /// The controls that reach over the left or right edge of the window: what is below its lower edge is scrolled to.
    fn cut_off(window: &Harness<'static, App>, width: f32) -> Vec<String> {
        use egui::accesskit::Role;
        let is_control = |role: Role| {
            matches!(
                role,
                Role::Button
                    | Role::CheckBox
                    | Role::RadioButton
                    | Role::ComboBox
                    | Role::SpinButton
                    | Role::TextInput
                    | Role::MultilineTextInput
                    | Role::Link
                    | Role::DisclosureTriangle
            )
        };
        let all = window.root().children_recursive();
        let controls = all.filter(|node| is_control(node.accesskit_node().role()));
        let over = controls.filter(|node| {
            let rect = node.rect();
            rect.left() < -0.5 || rect.right() > width + 0.5
        });
        over.map(|node| {
            let label = node.accesskit_node().label().unwrap_or_default();
            format!("{label} at {:?}", node.rect())
        })
        .collect()
    }

    /// A window of 900 by 600 points, and the same enlarged to 200 %; every part that can be planned is planned.
    #[test]
    fn every_control_of_every_stage_is_inside_a_small_window() {
        use crate::section::Section;
        use board::{
            Grooves, Machine, Recess, Router, ScrewCircle, SectorJig, Stock, StockOutline,
        };
        for size in [vec2(900.0, 600.0), vec2(450.0, 300.0)] {
            let mut window = window(size);
            let app = window.state_mut();
            app.view.pane = Pane::Controls;
            for section in Section::ALL {
                app.settings.folds.set(*section, true);
            }
            let board = &mut app.session.board;
            (board.grooves, board.recess) = (Some(Grooves::default()), Some(Recess::default()));
            board.machine = Some(Machine::default());
            board.router = Some(Router::default());
            board.sector_jig = Some(SectorJig::default());
            board.filling = Some(board::Filling::default());
            board.base = Some(board::Base::default());
            board.screws = vec![ScrewCircle::default()];
            board.stock = Stock {
                outline: StockOutline::Slab {
                    length: 1200.0,
                    width: 600.0,
                    lower: Vec::new(),
                    upper: Vec::new(),
                },
                ..Stock::default()
            };
            for stage in Stage::ALL {
                window.state_mut().view.stage = stage;
                window.run_steps(8);
                let over = cut_off(&window, size.x);
                assert!(over.is_empty(), "{stage:?} at {size:?}: {over:#?}");
            }
            window.state_mut().view.pane = Pane::Findings;
            window.run_steps(8);
            assert_eq!(cut_off(&window, size.x), [""; 0], "findings at {size:?}");
        }
    }

    #[test]
    fn every_control_of_every_dialog_is_inside_a_small_window() {
        use crate::dialogs::Dialog;
        use crate::help::SearchState;
        use board::Units;
        for size in [vec2(900.0, 600.0), vec2(450.0, 300.0)] {
            let mut window = window(size);
            let ctx = window.ctx.clone();
            for command in [
                Command::New,
                Command::Open,
                Command::SaveAs,
                Command::Export,
                Command::Shop,
                Command::Search,
                Command::Ruler,
                Command::Safety,
                Command::Guide,
                Command::Keys,
                Command::Words,
            ] {
                window.state_mut().apply(&ctx, command);
                window.run_steps(12);
                let over = cut_off(&window, size.x);
                assert!(over.is_empty(), "{command:?} at {size:?}: {over:#?}");
                window.state_mut().view.dialog = None;
                window.state_mut().view.help = crate::help::Help::default();
            }
            let mut search = SearchState::default();
            search.text = "hole".into();
            let path = std::path::PathBuf::from("/home/maker/boards/a-long-name-of-a-board.json");
            for dialog in [
                Dialog::Search(search, Units::Mm),
                Dialog::Unsaved(Command::Quit),
                Dialog::Changed(path, None),
            ] {
                window.state_mut().view.dialog = Some(dialog);
                window.run_steps(12);
                let over = cut_off(&window, size.x);
                assert!(over.is_empty(), "{size:?}: {over:#?}");
            }
        }
    }

    #[test]
    fn a_window_of_450_points_shows_one_thing_at_a_time() {
        let mut window = window(vec2(450.0, 300.0));
        window.get_by_label("Board plan");
        window.get_by_label("Controls").click();
        window.run();
        window.get_by_label("Board diameter");
        assert!(window.query_by_label("Board plan").is_none());
        window.get_by_label("Drawing").click();
        window.run();
        window.get_by_label("Board plan");
    }
}
