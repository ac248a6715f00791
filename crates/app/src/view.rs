//! The view of this run: selection, zoom, the open dialog, the last notice.

use std::path::PathBuf;
use std::sync::Arc;

use board::HoleId;
use workshop::{Finding, Rule, Severity, Workpiece};

use crate::blank_view::BlankViewState;
use crate::canvas::CanvasState;
use crate::command::Command;
use crate::dialogs::Dialog;
use crate::figures_view::FiguresViewState;
use crate::help::Help;
use crate::proof_view::ProofViewState;
use crate::sheet_view::SheetViewState;
use crate::stage::Stage;
use crate::wood_face::WoodFace;

/// The view of this run; not undone, not saved.
#[derive(Default)]
pub struct ViewState {
    /// The pane in front where there is no room for everything.
    pub pane: Pane,
    /// The room that the window has for panels.
    pub room: Room,
    /// The stage of the work whose controls are shown.
    pub stage: Stage,
    /// The face that the drawing shows.
    pub face: Face,
    /// The view of the blank.
    pub blank: BlankViewState,
    /// The view of the section.
    pub section: SheetViewState,
    /// The view of the proof.
    pub proof: ProofViewState,
    /// The wood under the plan.
    pub wood: WoodFace,
    /// The view of the finish.
    pub film: SheetViewState,
    /// The workpiece whose calendar was shown last.
    pub dated: Option<Arc<Workpiece>>,
    /// The table of figures.
    pub figures: FiguresViewState,
    /// Zoom and measuring.
    pub canvas: CanvasState,
    /// The hole that the panel shows.
    pub selected: Option<HoleId>,
    /// The holes chosen together with it; of no meaning where it is not among them.
    pub group: Vec<HoleId>,
    /// Whether the controls of the selected hole are to be brought into view.
    pub show_chosen: bool,
    /// Whether changes to the selected hole apply to the same hole of every player.
    pub mirrored: bool,
    /// The finding whose holes are lit.
    pub finding: Option<(Rule, Severity)>,
    /// Holes that the controls light in this frame.
    pub lit: Vec<HoleId>,
    /// The finding under the pointer, which is lit while it is there.
    pub pointed: Option<(Rule, Severity)>,
    /// The commands that panels asked for in this frame.
    pub asked: Vec<Command>,
    /// The board file that is to be opened once the changes at hand are saved or given up.
    pub wanted: Option<PathBuf>,
    /// The window of help.
    pub help: Help,
    /// The open dialog.
    pub dialog: Option<Dialog>,
    /// The words in the title bar of the window.
    pub caption: String,
    /// The canvas's words about the place under the pointer.
    pub readout: String,
    /// The last thing that was done or refused.
    pub notice: Option<Notice>,
}

/// The pane in front where there is no room for everything.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pane {
    /// The board.
    #[default]
    Board,
    /// The controls.
    Controls,
    /// Figures and findings.
    Findings,
}

/// The room that a window has for panels beside the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Room {
    /// Both stand beside it.
    #[default]
    Both,
    /// They share one place.
    Shared,
    /// One thing is shown at a time.
    Single,
}

/// The face that the drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Face {
    /// The board.
    #[default]
    Board,
    /// The board with the sheets of its template laid over it.
    Sheets,
    /// The blank with the board on it.
    Blank,
    /// The board cut open.
    Section,
    /// The finished board, as the customer will see it.
    Proof,
    /// The layers of the finish.
    Film,
    /// The work on its days.
    Calendar,
    /// Every figure with its formula.
    Figures,
}

impl Face {
    /// Every one, in the order of their tabs.
    pub const ALL: [Self; 8] = [
        Self::Board,
        Self::Sheets,
        Self::Blank,
        Self::Section,
        Self::Film,
        Self::Proof,
        Self::Calendar,
        Self::Figures,
    ];

    /// The words on its tab, by which the settings keep it too.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Board => "Plan",
            Self::Sheets => "Sheets",
            Self::Blank => "Blank",
            Self::Section => "Section",
            Self::Proof => "Proof",
            Self::Film => "Film",
            Self::Calendar => "Calendar",
            Self::Figures => "All figures",
        }
    }

    /// What it shows, and the command with keys that shows it too.
    pub const fn about(self) -> (&'static str, Option<Command>) {
        match self {
            Self::Board => ("The board from above: choose, drag and measure here", None),
            Self::Sheets => (Command::Sheets.tooltip(), Some(Command::Sheets)),
            Self::Blank => (Command::Blank.tooltip(), Some(Command::Blank)),
            Self::Section => (Command::Section.tooltip(), Some(Command::Section)),
            Self::Film => ("The coats of finish on the wood, layer by layer", None),
            Self::Proof => (Command::Proof.tooltip(), Some(Command::Proof)),
            Self::Calendar => (Command::Calendar.tooltip(), Some(Command::Calendar)),
            Self::Figures => (Command::Figures.tooltip(), Some(Command::Figures)),
        }
    }

    /// Whether holes are chosen, dragged and measured on it.
    pub const fn is_plan(self) -> bool {
        matches!(self, Self::Board | Self::Sheets)
    }
}

/// Something that was done or refused.
#[derive(Debug, Clone, PartialEq)]
pub struct Notice {
    /// The sentence.
    pub words: String,
    /// Whether it went wrong.
    pub is_error: bool,
    /// When it was first seen, in the time of the window.
    pub seen: Option<f64>,
}

impl Notice {
    /// Seconds for which it is shown: what went wrong stays longer.
    const fn lasts(&self) -> f64 {
        if self.is_error { 40.0 } else { 12.0 }
    }
}

impl ViewState {
    /// Brings the whole board, and the whole blank, into view.
    pub fn fit(&mut self) {
        self.canvas.fit();
        self.blank.fit();
        self.section.fit();
        self.proof.fit();
        self.film.fit();
    }

    /// All holes that are chosen.
    pub fn chosen(&self) -> Vec<HoleId> {
        match self.selected {
            Some(id) if self.group.contains(&id) => self.group.clone(),
            selected => selected.into_iter().collect(),
        }
    }

    /// Takes the notice away after its time; the seconds that it has left, as long as it is there.
    pub fn age_notice(&mut self, now: f64) -> Option<f64> {
        let notice = self.notice.as_mut()?;
        let left = *notice.seen.get_or_insert(now) + notice.lasts() - now;
        if left <= 0.0 {
            self.notice = None;
            return None;
        }
        Some(left)
    }

    /// Says that something was done.
    pub fn notify(&mut self, words: impl Into<String>) {
        self.notice = Some(Notice {
            words: words.into(),
            is_error: false,
            seen: None,
        });
    }

    /// Says that something went wrong.
    pub fn warn(&mut self, words: impl Into<String>) {
        self.notice = Some(Notice {
            words: words.into(),
            is_error: true,
            seen: None,
        });
    }

    /// The holes to light: those lit by the controls, or by the finding under the pointer, or else by the chosen one.
    pub fn lit(&self, findings: &[Finding]) -> Vec<HoleId> {
        if !self.lit.is_empty() {
            return self.lit.clone();
        }
        let wanted = self.pointed.or(self.finding);
        let is_it = |finding: &&Finding| Some(key(finding)) == wanted;
        let holes = findings
            .iter()
            .filter(is_it)
            .flat_map(|finding| &finding.holes);
        holes.map(|name| name.id()).collect()
    }
}

/// The key that identifies a finding of a board.
pub fn key(finding: &Finding) -> (Rule, Severity) {
    (finding.rule, finding.severity)
}
