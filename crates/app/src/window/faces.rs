//! The faces of the drawing: the board, its sheets, its blank, its section, the film of its finish, its proof, its days, and its
//! figures.

use egui::Ui;
use workshop::Workpiece;

use super::App;
use crate::blank_view::{BlankSeen, blank_view_ui};
use crate::calendar_view::calendar_view_ui;
use crate::canvas::{BoardView, SheetOutline, board_ui, readout};
use crate::command::Command;
use crate::figures_view::figures_view_ui;
use crate::film_view::film_ui;
use crate::palette::Palette;
use crate::proof_view::proof_view_ui;
use crate::section_view::section_ui;
use crate::stage::Stage;
use crate::view::{Face, Pane, Room};
use crate::widgets::empty_state;

impl App {
    /// The board, its blank, its section, the film of its finish, its proof, its days, or its figures.
    pub(super) fn drawing(&mut self, ui: &mut Ui) {
        if self.current.good().is_none() {
            self.nothing(ui);
            return;
        }
        match self.view.face {
            Face::Board | Face::Sheets => self.canvas(ui),
            Face::Blank => self.blank(ui),
            Face::Section => self.section(ui),
            Face::Film => self.film(ui),
            Face::Proof => self.proof(ui),
            Face::Calendar => self.calendar(ui),
            Face::Figures => self.figures(ui),
        }
    }

    /// The link to the field that can fix a board that cannot be laid out.
    fn nothing(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        let why = self.current.error();
        let why = why.map_or_else(String::new, |error| self.current.units().say(&error));
        let (action, command) = if self.session.can_undo() {
            ("Undo the last change", Command::Undo)
        } else {
            ("Begin a new board", Command::New)
        };
        if empty_state(
            ui,
            "This board cannot be laid out",
            &board::capital(&why),
            action,
        ) {
            self.view.asked.push(command);
        }
    }

    fn blank(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        let board = &mut self.session.board;
        if let Some(workpiece) = self.current.good() {
            let palette = Palette::of(ui.visuals()).on_wood_of(workpiece);
            let (ctx, host) = (ui.ctx(), &*self.host);
            let seen = BlankSeen {
                wood: if self.settings.show_wood && !self.settings.high_contrast {
                    self.view.wood.of_blank(ctx, host, workpiece, &palette)
                } else {
                    None
                },
                workpiece,
                plan: self.current.plan(),
                is_old: self.current.error().is_some(),
            };
            self.view.readout = blank_view_ui(ui, board, &seen, &mut self.view.blank);
        }
        if std::mem::take(&mut self.view.blank.to_controls) {
            self.show_controls(Stage::Wood);
        }
        // A drag changes the document: its consequences are shown in the next frame.
        self.current.refresh(&self.session.board);
    }

    fn section(&mut self, ui: &mut Ui) {
        self.view.readout =
            "Drag to pan, turn the wheel to zoom, double-click to begin at the top".into();
        if let Some(workpiece) = self.current.good() {
            let view = &mut self.view;
            section_ui(ui, workpiece, &mut view.selected, &mut view.section);
        }
    }

    fn proof(&mut self, ui: &mut Ui) {
        self.view.readout =
            "Drag to turn the board, up and down to look from higher or lower".into();
        if let Some(workpiece) = self.current.good() {
            proof_view_ui(ui, workpiece, &*self.host, &mut self.view.proof);
        }
    }

    fn calendar(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        let board = &mut self.session.board;
        if let Some(workpiece) = self.current.good() {
            if !workpiece.calendar_is_waiting() {
                self.view.dated = Some(workpiece.clone());
            }
            // The last known days stay visible while those of many boards are worked out.
            match &self.view.dated {
                Some(dated) => self.view.readout = calendar_view_ui(ui, board, dated),
                None => {
                    ui.centered_and_justified(egui::Ui::spinner);
                }
            }
            if workpiece.calendar_is_waiting() {
                self.view.readout = "Working out the days of all boards…".into();
            }
        }
        // A tick changes the document: its consequences are shown in the next frame.
        self.current.refresh(&self.session.board);
    }

    fn figures(&mut self, ui: &mut Ui) {
        self.view.readout.clear();
        if let Some(workpiece) = self.current.good() {
            figures_view_ui(ui, workpiece, &mut self.view.figures);
        }
    }

    fn film(&mut self, ui: &mut Ui) {
        self.view.readout =
            "Drag to pan, turn the wheel to zoom, double-click to begin at the top".into();
        if let Some(workpiece) = self.current.good()
            && film_ui(ui, workpiece, &mut self.view.film)
        {
            self.show_controls(Stage::Finish);
        }
    }

    /// Shows a face; if it is shown already, shows the board instead.
    pub(super) fn turn_to(&mut self, face: Face) {
        let is_shown = self.view.face == face;
        self.choose_face(if is_shown { Face::Board } else { face });
    }

    /// Shows a face that the maker chose, now and whenever this stage is chosen again.
    pub(super) fn choose_face(&mut self, face: Face) {
        self.view.face = face;
        if self.view.room == Room::Single {
            self.view.pane = Pane::Board;
        }
        let board = &self.session.board;
        self.settings.looks.choose(self.view.stage, face, board);
    }

    /// Goes to a stage: its controls, and the face that the maker chose there or that fits it.
    pub(super) fn go_to_stage(&mut self, stage: Stage) {
        self.show_controls(stage);
        self.view.face = self.settings.looks.of(stage, &self.session.board);
    }

    /// Shows the controls of a stage and leaves the drawing as it is, since the pointer is on it.
    pub(super) fn show_controls(&mut self, stage: Stage) {
        self.settings.controls.folded = false;
        self.view.stage = stage;
        self.view.pane = Pane::Controls;
    }

    fn canvas(&mut self, ui: &mut Ui) {
        let Some(workpiece) = self.current.good() else {
            return;
        };
        let sheets = if self.view.face == Face::Sheets {
            outlines(workpiece)
        } else {
            Vec::new()
        };
        let lit = self.view.lit(workpiece.findings());
        let wood = if self.settings.show_wood && !self.settings.high_contrast {
            let palette = Palette::of(ui.visuals()).on_wood_of(workpiece);
            self.view
                .wood
                .of(ui.ctx(), &*self.host, workpiece, &palette)
        } else {
            None
        };
        let chosen = self.view.chosen();
        let shown = BoardView {
            workpiece,
            plan: self.current.plan(),
            tints: self.current.tints(),
            sheets: &sheets,
            lit: &lit,
            selected: self.view.selected,
            chosen: &chosen,
            mirrored: self.view.mirrored,
            dimmed: self.current.error().is_some(),
            units: self.session.board.units,
            wood,
            show_names: self.settings.show_names,
        };
        let output = board_ui(ui, &shown, &mut self.view.canvas);
        self.view.readout = readout(&output, shown.units);
        if let Some(choice) = output.choice {
            self.view.show_chosen = choice.selected.is_some();
            self.view.selected = choice.selected;
            self.view.group = choice.chosen;
        }
        if let Some(board) = output.changed {
            self.session.board = board;
            ui.request_repaint();
        }
        self.current.keep_pockets(self.view.canvas.pockets_kept());
        // The next frame shows the results.
        self.current.refresh(&self.session.board);
    }
}

fn outlines(workpiece: &Workpiece) -> Vec<SheetOutline> {
    let tiles = workpiece
        .tiling()
        .map(|tiling| tiling.tiles.as_slice())
        .unwrap_or_default();
    tiles
        .iter()
        .map(|tile| SheetOutline {
            window: tile.window,
            label: tile.label(),
        })
        .collect()
}
