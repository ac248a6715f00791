//! Commands of menus, buttons and shortcuts: one table for all of them.

use egui::{Key, KeyboardShortcut, Modifiers};
use workshop::Mend;

use crate::stage::Stage;

/// A command of the maker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Command {
    /// Begin a new board.
    New,
    /// Open a board file.
    Open,
    /// Open a sample board, by its place in the list.
    Sample(usize),
    /// Open a board file again, by its place in the list of those opened or saved last.
    Recent(usize),
    /// Open the board file that was dropped on the window or picked from those opened last.
    Wanted,
    /// Save to the open file.
    Save,
    /// Save to another file.
    SaveAs,
    /// The board as it was before it was saved last.
    Before,
    /// Export templates and tables.
    Export,
    /// Close the window.
    Quit,
    /// One step back.
    Undo,
    /// One step forward.
    Redo,
    /// Find something and change it in one step.
    Mend(Mend),
    /// The whole board in view.
    Fit,
    /// The chosen holes in view.
    ZoomTo,
    /// The board as large on the screen as it will be.
    TrueSize,
    /// The screen against a ruler.
    Ruler,
    /// The measuring tool on or off.
    Measure,
    /// Names of holes on screen on or off.
    Names,
    /// The figure of the wood on the plan on or off.
    Figure,
    /// The sheets of the template over the board, or the board alone.
    Sheets,
    /// The board on its blank, or the board alone.
    Blank,
    /// The board cut open, or the board alone.
    Section,
    /// The finished board as the customer will see it, or the board alone.
    Proof,
    /// The work on its days, or the board alone.
    Calendar,
    /// Every figure with its formula, or the board alone.
    Figures,
    /// The controls of a stage of the work.
    Stage(Stage),
    /// The panel of the controls, or its room for the drawing.
    ControlsPanel,
    /// The panel of figures and findings, or its room for the drawing.
    FindingsPanel,
    /// Millimeters or inches.
    Units,
    /// Light or dark.
    Theme,
    /// Light or dark as the system has it.
    SystemTheme,
    /// Colors of high contrast, or quiet ones.
    HighContrast,
    /// The maker's shop.
    Shop,
    /// A search over commands, fields, words and the guide.
    Search,
    /// The guide, at the chapter of the current stage.
    Guide,
    /// The keys.
    Keys,
    /// The words of the trade.
    Words,
    /// The word that explains the field with the focus.
    Term,
    /// Cautions for the work.
    Safety,
}

const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

impl Command {
    /// Every command that is the same at all times.
    pub const ALL: [Self; 51] = [
        Self::New,
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::Before,
        Self::Export,
        Self::Quit,
        Self::Undo,
        Self::Redo,
        Self::Mend(Mend::FitBoard),
        Self::Mend(Mend::FitPitch),
        Self::Mend(Mend::WiderPitch),
        Self::Mend(Mend::RimAsItIs),
        Self::Mend(Mend::LargestBore),
        Self::Mend(Mend::LargestPiece),
        Self::Mend(Mend::BoardForPiece),
        Self::Mend(Mend::MostSpaces),
        Self::Mend(Mend::TurnOffSeams),
        Self::Fit,
        Self::ZoomTo,
        Self::TrueSize,
        Self::Ruler,
        Self::Measure,
        Self::Names,
        Self::Figure,
        Self::Sheets,
        Self::Blank,
        Self::Section,
        Self::Proof,
        Self::Calendar,
        Self::Figures,
        Self::Stage(Stage::LayOut),
        Self::Stage(Stage::Wood),
        Self::Stage(Stage::Template),
        Self::Stage(Stage::Drill),
        Self::Stage(Stage::Bench),
        Self::Stage(Stage::Finish),
        Self::Stage(Stage::HandOver),
        Self::ControlsPanel,
        Self::FindingsPanel,
        Self::Units,
        Self::Theme,
        Self::SystemTheme,
        Self::HighContrast,
        Self::Shop,
        Self::Search,
        Self::Guide,
        Self::Keys,
        Self::Words,
        Self::Term,
        Self::Safety,
    ];

    /// The words on its menu entry or button.
    pub const fn label(self) -> &'static str {
        match self {
            Self::New => "New board…",
            Self::Open => "Open…",
            Self::Sample(_) => "Sample board",
            Self::Recent(_) | Self::Wanted => "Board file",
            Self::Save => "Save",
            Self::SaveAs => "Save as…",
            Self::Before => "Version before the last save",
            Self::Export => "Export…",
            Self::Quit => "Quit",
            Self::Undo => "Undo",
            Self::Redo => "Redo",
            Self::Mend(mend) => mend.label(),
            Self::Fit => "Whole board",
            Self::ZoomTo => "Zoom to selection",
            Self::TrueSize => "True size on the screen",
            Self::Ruler => "Check the screen with a ruler…",
            Self::Measure => "Measure",
            Self::Names => "Names of holes",
            Self::Figure => "Show wood",
            Self::Sheets => "Sheets of the template",
            Self::Blank => "Board on its blank",
            Self::Section => "Section of the board",
            Self::Proof => "Proof for the customer",
            Self::Calendar => "Calendar of the work",
            Self::Figures => "All figures",
            Self::Stage(stage) => stage.label(),
            Self::ControlsPanel => "Panel of controls",
            Self::FindingsPanel => "Panel of findings",
            Self::Units => "Millimeters or inches",
            Self::Theme => "Light or dark",
            Self::SystemTheme => "Light or dark like the system",
            Self::HighContrast => "High contrast",
            Self::Shop => "Shop…",
            Self::Search => "Search…",
            Self::Guide => "Guide",
            Self::Keys => "Keyboard shortcuts",
            Self::Words => "Words explained",
            Self::Term => "Explain this field",
            Self::Safety => "Working safely…",
        }
    }

    /// Its effect, for a pointer that rests on it.
    pub const fn tooltip(self) -> &'static str {
        match self {
            Self::New => "Start a new board from players, pattern and pieces",
            Self::Open => "Open a board file",
            Self::Sample(_) => "Open a sample board",
            Self::Recent(_) => "Open this board file again",
            Self::Wanted => "Open this board file",
            Self::Save => "Save the board to its file",
            Self::SaveAs => "Save the board to another file",
            Self::Before => "Go back to the file as it was before the last save",
            Self::Export => "Write templates and hole tables",
            Self::Quit => "Close the window",
            Self::Undo => "Undo the last change",
            Self::Redo => "Redo the change that was undone",
            Self::Mend(mend) => mend.tooltip(),
            Self::Fit => "Show the whole board; arrow keys and brackets then work on the drawing",
            Self::ZoomTo => "Zoom in until the chosen holes fill the view",
            Self::TrueSize => {
                "Show the board at its real size; a piece held against the screen fits its hole"
            }
            Self::Ruler => {
                "Measure a bar on the screen with a ruler so that true size is right; once for each screen"
            }
            Self::Measure => {
                "Click one thing and then another, or drag between them: centers and edges of holes, the board's edge, seams. \
                 With Shift a drag always measures; Escape ends"
            }
            Self::Names => "Show names where there is room to read them",
            Self::Figure => "Show the figure of the chosen wood on the plan, or plain wood",
            Self::Sheets => "Lay the printed sheets over the board",
            Self::Blank => "Show the blank with its knots, and where the board lies on it",
            Self::Section => {
                "Cut the board open through a hole, the recess and the base, with its sizes"
            }
            Self::Proof => "Show the finished board as the customer will see it",
            Self::Calendar => "Show each step of the work on its days",
            Self::Figures => "Show every figure with its formula and source, and find one by name",
            Self::Stage(stage) => stage.tooltip(),
            Self::ControlsPanel => "Show the controls, or give their room to the drawing",
            Self::FindingsPanel => "Show key sizes and findings, or give their room to the drawing",
            Self::Units => "Show lengths in the other unit",
            Self::Theme => "Switch between light and dark",
            Self::SystemTheme => "Follow the system's light or dark setting",
            Self::HighContrast => {
                "Switch between strong contrast with every line drawn and quiet colors"
            }
            Self::Search => "Find a command, a field, a word or a page of the guide by name",
            Self::Guide => "Open the guide at this stage",
            Self::Keys => "Every command with a keyboard shortcut",
            Self::Words => "Words of the trade, each in a sentence or two",
            Self::Term => {
                "Explain the field that has the focus; clicking a dotted underline does the same"
            }
            Self::Shop => "The paper, planer, bits, saw and resin that new boards start with",
            Self::Safety => "Cautions for drill, router, saw, dust and small parts",
        }
    }

    /// Its keys.
    pub const fn shortcut(self) -> Option<KeyboardShortcut> {
        let (modifiers, key) = match self {
            Self::New => (Modifiers::COMMAND, Key::N),
            Self::Open => (Modifiers::COMMAND, Key::O),
            Self::Save => (Modifiers::COMMAND, Key::S),
            Self::SaveAs => (CTRL_SHIFT, Key::S),
            Self::Export => (Modifiers::COMMAND, Key::E),
            Self::Quit => (Modifiers::COMMAND, Key::Q),
            Self::Undo => (Modifiers::COMMAND, Key::Z),
            Self::Redo => (CTRL_SHIFT, Key::Z),
            Self::Fit => (Modifiers::COMMAND, Key::F),
            Self::ZoomTo => (Modifiers::COMMAND, Key::I),
            Self::Measure => (Modifiers::COMMAND, Key::M),
            Self::Names => (Modifiers::COMMAND, Key::L),
            Self::Sheets => (Modifiers::COMMAND, Key::T),
            Self::Blank => (Modifiers::COMMAND, Key::B),
            Self::Proof => (Modifiers::COMMAND, Key::P),
            Self::Calendar => (Modifiers::COMMAND, Key::R),
            Self::Section => (Modifiers::COMMAND, Key::J),
            Self::Search => (Modifiers::COMMAND, Key::K),
            Self::Guide => (Modifiers::NONE, Key::F1),
            Self::Term => (Modifiers::SHIFT, Key::F1),
            Self::Stage(stage) => {
                let key = match stage {
                    Stage::LayOut => Key::Num1,
                    Stage::Wood => Key::Num2,
                    Stage::Template => Key::Num3,
                    Stage::Drill => Key::Num4,
                    Stage::Bench => Key::Num5,
                    Stage::Finish => Key::Num6,
                    Stage::HandOver => Key::Num7,
                };
                (Modifiers::COMMAND, key)
            }
            Self::ControlsPanel => (Modifiers::NONE, Key::F8),
            Self::FindingsPanel => (Modifiers::NONE, Key::F9),
            Self::Units => (Modifiers::COMMAND, Key::U),
            Self::Theme => (Modifiers::COMMAND, Key::D),
            Self::Figure
            | Self::Figures
            | Self::TrueSize
            | Self::Ruler
            | Self::SystemTheme
            | Self::HighContrast
            | Self::Sample(_)
            | Self::Recent(_)
            | Self::Wanted
            | Self::Before
            | Self::Mend(_)
            | Self::Shop
            | Self::Keys
            | Self::Words
            | Self::Safety => {
                return None;
            }
        };
        Some(KeyboardShortcut::new(modifiers, key))
    }

    /// Other keys for the same, where many are used to them.
    const fn other_shortcut(self) -> Option<KeyboardShortcut> {
        match self {
            Self::Redo => Some(KeyboardShortcut::new(Modifiers::COMMAND, Key::Y)),
            Self::Search => Some(KeyboardShortcut::new(Modifiers::NONE, Key::Slash)),
            _ => None,
        }
    }

    /// Takes the shortcuts that were pressed; the longer ones first, since Ctrl+Z is part of Ctrl+Shift+Z.
    pub fn pressed(ctx: &egui::Context) -> Vec<Self> {
        // A text field has an undo of its own.
        let typing = ctx.text_edit_focused();
        let mut commands: Vec<Self> = Self::ALL
            .into_iter()
            .filter(|command| !(typing && command.is_of_text()))
            .collect();
        commands.sort_by_key(|command| command.shortcut().is_none_or(|keys| !keys.modifiers.shift));
        let pressed = |command: &Self| {
            let keys = [command.shortcut(), command.other_shortcut()];
            keys.into_iter()
                .flatten()
                .any(|keys| ctx.input_mut(|input| input.consume_shortcut(&keys)))
        };
        commands.into_iter().filter(pressed).collect()
    }

    /// Whether a text field has a use of its own for the keys.
    const fn is_of_text(self) -> bool {
        matches!(self, Self::Undo | Self::Redo | Self::Search | Self::Units)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_commands_share_keys_or_words() {
        for (at, command) in Command::ALL.iter().enumerate() {
            for other in &Command::ALL[at + 1..] {
                assert_ne!(command.label(), other.label());
                assert!(
                    command.shortcut().is_none() || command.shortcut() != other.shortcut(),
                    "{command:?} {other:?}"
                );
            }
        }
    }
}
