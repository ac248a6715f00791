//! The dialogs: at most one is open, and each is a window of our own with a path that can be typed.

mod changed;
mod export;
mod exported;
mod new;
mod path;
mod rescued;
mod ruler;
mod safety;
mod shop;
mod unsaved;

use std::path::PathBuf;
use std::sync::Arc;

use board::Units;
use egui::{Context, Id, Modal, Ui};
use kurbo::Size;

use crate::command::Command;
use crate::exports::{Kind, Source};
use crate::help::{Found as Sought, SearchState, search_ui};
use crate::host::{Ask, Host};
use crate::places::Spot;
use crate::rescue::Found;
use crate::session::Rescued;
use crate::theme;

pub use export::ExportDialog;
pub use exported::ExportedDialog;
pub use new::{Asked, NewDialog, Proposed, propose_at_once};
pub use path::PathDialog;
pub use ruler::RulerDialog;
pub use shop::ShopDialog;

/// The open dialog.
pub enum Dialog {
    /// The board file to open.
    Open(PathDialog),
    /// The file to save the board to.
    SaveAs(PathDialog),
    /// Exports, and their folder.
    Export(ExportDialog),
    /// Files that were written, and kinds that were not.
    Exported(ExportedDialog),
    /// A new board.
    New(Box<NewDialog>),
    /// Changes would be lost by a command.
    Unsaved(Command),
    /// Another program has changed the file that is to be saved; what is done after that.
    Changed(PathBuf, Option<Command>),
    /// Earlier runs left boards unsaved.
    Rescued(Box<Found>),
    /// The maker's shop.
    Shop(Box<ShopDialog>),
    /// A search over commands, fields, words and the guide, on a board in some units.
    Search(SearchState, Units),
    /// A bar to be measured on the screen.
    Ruler(RulerDialog),
    /// Cautions.
    Safety,
}

/// A request that a dialog makes of the window.
pub enum Answer {
    /// Close it.
    Cancel,
    /// Ask the system for a path.
    Browse(Ask),
    /// Open this file.
    Open(PathBuf),
    /// Save to this file, and then run the waiting command.
    SaveAs(PathBuf, Option<Command>),
    /// Write these kinds of this board to this folder, replacing files if so asked.
    Export(Arc<Source>, Vec<Kind>, PathBuf, bool),
    /// Stop the export that is running.
    Stop,
    /// Open this file or folder with the program that the system has for it.
    Show(PathBuf),
    /// Print this file, on paper of a size in mm.
    Print(PathBuf, Size),
    /// Go to this place in the controls.
    Visit(Spot),
    /// Begin the board of this order; the board itself if it has been worked out already.
    New(Box<Asked>, Option<Arc<Proposed>>),
    /// Save first, then do it.
    SaveThen(Command),
    /// Do it and discard the changes.
    Discard(Command),
    /// Open what an earlier run left unsaved.
    Rescue(Box<Rescued>),
    /// Go to what a search has found.
    Go(Sought),
    /// Discard that unsaved board.
    GiveUp(Box<Rescued>),
    /// Decide later about the boards of earlier runs.
    RescueLater,
    /// Save over the open file, whatever it holds now, and then run the waiting command.
    Replace(Option<Command>),
    /// The screen has this many pixels per millimeter.
    Screen(f64),
    /// Ask where to save instead, and then run the waiting command.
    Elsewhere(Option<Command>),
}

impl Dialog {
    /// Whether this dialog asks the system for such a path.
    pub fn asks(&self, ask: &Ask) -> bool {
        matches!(
            (self, ask),
            (Self::Open(_), Ask::Open)
                | (Self::SaveAs(_), Ask::Save(_))
                | (Self::Export(_), Ask::Folder)
        )
    }

    /// Takes a path that the system's dialog was asked for.
    pub fn take_path(&mut self, path: &std::path::Path) {
        let text = path.display().to_string();
        match self {
            Self::Open(dialog) | Self::SaveAs(dialog) => dialog.set_path(text),
            Self::Export(dialog) => dialog.set_folder(text),
            Self::New(_)
            | Self::Exported(_)
            | Self::Unsaved(_)
            | Self::Changed(..)
            | Self::Rescued(_)
            | Self::Shop(_)
            | Self::Search(..)
            | Self::Ruler(_)
            | Self::Safety => {}
        }
    }

    /// Shows an error in the dialog; returns the sentence where the dialog has no place for it.
    pub fn fault(&mut self, sentence: String) -> Option<String> {
        let place = match self {
            Self::Open(dialog) | Self::SaveAs(dialog) => &mut dialog.fault,
            Self::Export(dialog) => {
                dialog.set_fault(sentence);
                return None;
            }
            Self::New(dialog) => &mut dialog.fault,
            Self::Exported(dialog) => &mut dialog.fault,
            _ => return Some(sentence),
        };
        *place = Some(sentence);
        None
    }
}

/// Shows the open dialog over the window.
pub fn dialog_ui(ctx: &Context, dialog: &mut Dialog, host: &dyn Host) -> Option<Answer> {
    let frame = egui::Frame::window(&ctx.global_style()).inner_margin(20.0);
    // Each has a size of its own, which the toolkit remembers under this name.
    let name = core::mem::discriminant(dialog);
    look_again(ctx, name);
    let modal = Modal::new(Id::unique("dialog").with(name))
        .frame(frame)
        .show(ctx, |ui| {
            if !matches!(dialog, Dialog::Export(_) | Dialog::New(_)) {
                // A window enlarged to 200 % has little room.
                ui.set_width(WIDTH.min(ui.ctx().content_rect().width() - 60.0));
            }
            match dialog {
                Dialog::Open(dialog) => path::open_ui(ui, dialog),
                Dialog::SaveAs(dialog) => path::save_ui(ui, dialog, host),
                Dialog::Export(dialog) => export::export_ui(ui, dialog, host),
                Dialog::Exported(dialog) => exported::exported_ui(ui, dialog),
                Dialog::New(dialog) => new::new_ui(ui, dialog, host),
                Dialog::Unsaved(then) => unsaved::unsaved_ui(ui, *then),
                Dialog::Changed(path, then) => changed::changed_ui(ui, path, *then),
                Dialog::Rescued(found) => rescued::rescued_ui(ui, found),
                Dialog::Shop(dialog) => shop::shop_ui(ui, dialog),
                Dialog::Search(state, units) => search_ui(ui, state, *units).map(Answer::Go),
                Dialog::Ruler(dialog) => ruler::ruler_ui(ui, dialog),
                Dialog::Safety => safety::safety_ui(ui),
            }
        });
    // A click beside the dialog does not throw away what was typed into it.
    let is_slip = modal.backdrop_response.clicked() && matches!(dialog, Dialog::New(_));
    let closed = (modal.should_close() && !is_slip).then(|| match dialog {
        // Closing the dialog discards nothing.
        Dialog::Rescued(_) => Answer::RescueLater,
        _ => Answer::Cancel,
    });
    modal.inner.or(closed)
}

/// Requests a few more frames when a dialog is new: in the first it only finds its size and place, and its buttons are not yet where
/// they will be.
fn look_again(ctx: &Context, name: core::mem::Discriminant<Dialog>) {
    const FRAMES: u8 = 3;
    let id = Id::unique("last dialog");
    let seen = ctx.data(|data| data.get_temp::<(core::mem::Discriminant<Dialog>, u8)>(id));
    let frames = seen.map_or(0, |(last, frames)| if last == name { frames } else { 0 });
    if frames < FRAMES {
        ctx.data_mut(|data| data.insert_temp(id, (name, frames + 1)));
        ctx.request_repaint();
    }
}

/// Least width at which all buttons of a dialog fit in a row, in points.
const ROOM_FOR_BUTTONS: f32 = 420.0;
/// Usual width of a dialog, in points.
const WIDTH: f32 = 480.0;

fn heading(ui: &mut Ui, title: &str) {
    ui.heading(title);
    ui.add_space(theme::GAP);
}

fn fault_ui(ui: &mut Ui, fault: Option<&String>) {
    if let Some(fault) = fault {
        let color = theme::Tokens::of(ui).stop;
        ui.label(egui::RichText::new(format!("▲ {}", board::capital(fault))).color(color));
    }
}

/// The buttons below a dialog, the main one at the right; returns whether it was pressed, and whether cancel was.
fn buttons(ui: &mut Ui, main: &str, enabled: bool) -> (bool, bool) {
    two_buttons(ui, "Cancel", main, enabled)
}

/// The same with another button in the place of Cancel.
fn two_buttons(ui: &mut Ui, other: &str, main: &str, enabled: bool) -> (bool, bool) {
    button_row(ui, |ui| {
        let is_canceled = ui.button(other).clicked();
        let pressed = ui
            .add_enabled_ui(enabled, |ui| crate::widgets::main_button(ui, main))
            .inner
            .clicked();
        (pressed, is_canceled)
    })
}

/// The last row of a dialog, which ends at the right.
fn button_row<R>(ui: &mut Ui, buttons: impl FnOnce(&mut Ui) -> R) -> R {
    ui.add_space(theme::GAP);
    if ui.available_width() < ROOM_FOR_BUTTONS {
        return ui.horizontal_wrapped(buttons).inner;
    }
    let row = ui.horizontal(|ui| crate::widgets::at_right(ui, "buttons", |_| {}, buttons));
    row.inner
}
