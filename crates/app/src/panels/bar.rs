//! The bar at the top: menus, title, and the buttons that are used most.

use std::path::PathBuf;

use board::Units;
use egui::{
    Align, Button, Context, Event, Id, Key, Layout, MenuBar, Modifiers, Popup, Rect, Response,
    RichText, Role, ScrollArea, Sense, StrokeKind, Ui, WidgetInfo, vec2,
};

use crate::command::Command;
use crate::samples::SAMPLES;
use crate::session::Session;
use crate::stage::Stage;
use crate::theme;
use crate::view::ViewState;
use crate::widgets::{at_right, main_button};

/// Least width of the bar that shows the program's name, in points.
const ROOM_FOR_NAME: f32 = 640.0;
/// Least width beside the menus at which the buttons and the name of the board are shown there, in points.
const ROOM_FOR_THEME: f32 = 300.0;
const ROOM_FOR_STEPS: f32 = 415.0;
const ROOM_FOR_TITLE: f32 = 475.0;
const ROOM_FOR_PANELS: f32 = 560.0;

/// The bar above the board; the commands that the maker chooses are added to `commands`.
pub fn bar_ui(
    ui: &mut Ui,
    session: &Session,
    recent: &[PathBuf],
    (view, shown): (&ViewState, [bool; 2]),
    commands: &mut Vec<Command>,
) {
    MenuBar::new().ui(ui, |ui| {
        if ui.available_width() >= ROOM_FOR_NAME {
            ui.label(theme::bold("Ringwright"));
            ui.add_space(theme::GAP);
        }
        let wanted = menu_keys(ui.ctx());
        let file = file_menu(ui, recent, commands);
        let edit = menu(ui, "Edit", |ui| {
            step_entry(ui, Command::Undo, session.undo_name().as_deref(), commands);
            step_entry(ui, Command::Redo, session.redo_name().as_deref(), commands);
            ui.separator();
            for command in Command::ALL {
                if matches!(command, Command::Mend(_)) {
                    entry(ui, command, true, commands);
                }
            }
        });
        let view = view_menu(ui, view, commands);
        let help = menu(ui, "Help", |ui| {
            for command in [
                Command::Search,
                Command::Guide,
                Command::Keys,
                Command::Words,
                Command::Term,
                Command::Safety,
            ] {
                entry(ui, command, true, commands);
            }
        });
        let menus = [file, edit, view, help];
        if let Some(menu) = wanted.and_then(|at| menus.get(at)) {
            menu.request_focus();
            Popup::open_id(ui.ctx(), Popup::default_response_id(menu));
        }
        if ui.available_width() >= ROOM_FOR_PANELS {
            ui.add_space(theme::GAP);
            for (command, is_shown, side) in [
                (Command::ControlsPanel, shown[0], Align::Min),
                (Command::FindingsPanel, shown[1], Align::Max),
            ] {
                if panel_button(ui, command, is_shown, side) {
                    commands.push(command);
                }
            }
        }
        let room = ui.available_width();
        let title = |ui: &mut Ui| title_ui(ui, session, room);
        at_right(ui, "buttons", title, |ui| {
            buttons(ui, session, room, commands);
        });
    });
}

/// The button that hides or shows the panel at a side; returns whether it was pressed. Its picture is a window, with that side filled
/// while the panel is shown.
fn panel_button(ui: &mut Ui, command: Command, is_shown: bool, side: Align) -> bool {
    let height = ui.spacing().interact_size.y;
    let (rect, response) = ui.allocate_exact_size(vec2(height + 4.0, height), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_shown, command.label()));
    let look = ui.style().interact(&response);
    let frame = Rect::from_center_size(rect.center(), vec2(17.0, 13.0));
    let mut part = frame.shrink(1.5);
    part.set_width(5.0);
    if side == Align::Max {
        part = part.translate(vec2(frame.width() - 3.0 - part.width(), 0.0));
    }
    let painter = ui.painter();
    if response.hovered() {
        painter.rect_filled(rect, look.corner_radius, look.weak_bg_fill);
    }
    painter.rect_stroke(frame, 2.0, look.fg_stroke, StrokeKind::Inside);
    if is_shown {
        painter.rect_filled(part, 0.5, look.fg_stroke.color);
    } else {
        painter.rect_stroke(part, 0.5, look.fg_stroke, StrokeKind::Inside);
    }
    let keys = command.shortcut();
    let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(&keys));
    let hint = format!("{} ({keys})", command.tooltip());
    response.on_hover_text(hint).clicked()
}

/// The menu to open by a key, as its index in the bar: F10 and Alt alone open the first, Alt with a letter the one that begins with
/// that letter.
fn menu_keys(ctx: &Context) -> Option<usize> {
    let letters = [Key::F, Key::E, Key::V, Key::H];
    let is_pressed =
        |letter: &Key| ctx.input_mut(|input| input.consume_key(Modifiers::ALT, *letter));
    let by_letter = letters.iter().position(is_pressed);
    let f10 = ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::F10));
    by_letter.or((f10 || is_alt_tapped(ctx)).then_some(0))
}

/// Whether Alt was pressed and let go with nothing else between.
fn is_alt_tapped(ctx: &Context) -> bool {
    let id = Id::unique("alt alone");
    let (alt, other) = ctx.input(|input| {
        let is_other = |event: &Event| {
            matches!(
                event,
                Event::Key { .. } | Event::PointerButton { .. } | Event::MouseWheel { .. }
            )
        };
        let modifiers = input.modifiers;
        let with_others = modifiers.ctrl || modifiers.shift || modifiers.command;
        (
            modifiers.alt,
            with_others || input.events.iter().any(is_other),
        )
    });
    ctx.data_mut(|data| {
        // None: not held; true: held alone so far.
        let held = data.get_temp::<Option<bool>>(id).flatten();
        let now = alt.then(|| held.unwrap_or(true) && !other);
        data.insert_temp(id, now);
        !alt && !other && held == Some(true)
    })
}

/// A menu, whose entries scroll where the window is too low for all of them.
fn menu(ui: &mut Ui, title: &str, entries: impl FnOnce(&mut Ui)) -> Response {
    /// Height of the bar, and of the menu's frame.
    const AROUND: f32 = 72.0;
    let height = ui.ctx().content_rect().height() - AROUND;
    let menu = ui.menu_button(title, |ui| {
        // By default a menu scrolls from 400 points on, however high the window is.
        let area = ScrollArea::vertical()
            .max_height(height)
            .min_scrolled_height(height);
        area.show(ui, entries);
    });
    menu.response
}

fn file_menu(ui: &mut Ui, recent: &[PathBuf], commands: &mut Vec<Command>) -> Response {
    menu(ui, "File", |ui| {
        for command in [Command::New, Command::Open] {
            entry(ui, command, true, commands);
        }
        ui.add_enabled_ui(!recent.is_empty(), |ui| {
            ui.menu_button("Recent boards", |ui| {
                for (at, path) in recent.iter().enumerate() {
                    let name = path.file_name().unwrap_or(path.as_os_str());
                    let button = ui.button(name.to_string_lossy());
                    if button.on_hover_text(path.to_string_lossy()).clicked() {
                        commands.push(Command::Recent(at));
                    }
                }
            });
        });
        ui.menu_button("Sample boards", |ui| {
            for (at, sample) in SAMPLES.iter().enumerate() {
                if ui.button(sample.title).clicked() {
                    commands.push(Command::Sample(at));
                }
            }
        });
        ui.separator();
        for command in [
            Command::Save,
            Command::SaveAs,
            Command::Before,
            Command::Export,
        ] {
            entry(ui, command, true, commands);
        }
        ui.separator();
        entry(ui, Command::Shop, true, commands);
        ui.separator();
        entry(ui, Command::Quit, true, commands);
    })
}

fn view_menu(ui: &mut Ui, view: &ViewState, commands: &mut Vec<Command>) -> Response {
    menu(ui, "View", |ui| {
        entry(ui, Command::Fit, true, commands);
        entry(ui, Command::ZoomTo, view.selected.is_some(), commands);
        entry(ui, Command::TrueSize, true, commands);
        entry(ui, Command::Ruler, true, commands);
        let measuring = if view.canvas.measuring() {
            "Stop measuring"
        } else {
            Command::Measure.label()
        };
        named_entry(ui, Command::Measure, measuring, commands);
        for command in [
            Command::Names,
            Command::Figure,
            Command::Sheets,
            Command::Blank,
            Command::Section,
            Command::Proof,
            Command::Calendar,
            Command::Figures,
            Command::ControlsPanel,
            Command::FindingsPanel,
            Command::Units,
            Command::Theme,
            Command::SystemTheme,
            Command::HighContrast,
        ] {
            entry(ui, command, true, commands);
        }
        // A single list would not fit in a small window.
        ui.menu_button("Stages of the work", |ui| {
            for stage in Stage::ALL {
                entry(ui, Command::Stage(stage), true, commands);
            }
        });
    })
}

fn entry(ui: &mut Ui, command: Command, enabled: bool, commands: &mut Vec<Command>) {
    ui.add_enabled_ui(enabled, |ui| {
        named_entry(ui, command, command.label(), commands);
    });
}

/// The menu entry of undo or redo, with the change it concerns; disabled where there is none.
fn step_entry(ui: &mut Ui, command: Command, step: Option<&str>, commands: &mut Vec<Command>) {
    let label = command.label();
    let named = step.map_or_else(|| label.into(), |step| format!("{label}: {step}"));
    ui.add_enabled_ui(step.is_some(), |ui| {
        named_entry(ui, command, &named, commands);
    });
}

/// The button of undo or redo, which says on hover what it does; returns whether it was pressed.
fn step_button(
    ui: &mut Ui,
    command: Command,
    can: bool,
    step: impl Fn() -> Option<String>,
) -> bool {
    let button = ui.add_enabled(can, Button::new(command.label()));
    let hint = |ui: &mut Ui| {
        let step = step().unwrap_or_default();
        ui.label(format!("{}: {step}", command.tooltip()));
    };
    button.on_hover_ui(hint).clicked()
}

fn named_entry(ui: &mut Ui, command: Command, label: &str, commands: &mut Vec<Command>) {
    let mut button = Button::new(label);
    if let Some(keys) = command.shortcut() {
        button = button.shortcut_text(ui.ctx().format_shortcut(&keys));
    }
    if ui.add(button).on_hover_text(command.tooltip()).clicked() {
        commands.push(command);
    }
}

/// The name of the board beside the buttons, where there is room for it.
fn title_ui(ui: &mut Ui, session: &Session, room: f32) {
    if room < ROOM_FOR_TITLE {
        return;
    }
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        ui.add_space(theme::GAP);
        ui.spacing_mut().item_spacing.x = 0.0;
        // The mark of unsaved changes comes first, so that it is seen even where the name is cut off.
        if session.is_dirty() {
            ui.label(RichText::new(", changed").weak());
        }
        ui.add(egui::Label::new(RichText::new(session.name()).weak()).truncate());
    });
}

/// The buttons at the right, as many as there is room for.
fn buttons(ui: &mut Ui, session: &Session, room: f32, commands: &mut Vec<Command>) {
    let mut add = |clicked: bool, command| {
        if clicked {
            commands.push(command);
        }
    };
    if room >= ROOM_FOR_STEPS {
        let undo = step_button(ui, Command::Undo, session.can_undo(), || {
            session.undo_name()
        });
        add(undo, Command::Undo);
        let redo = step_button(ui, Command::Redo, session.can_redo(), || {
            session.redo_name()
        });
        add(redo, Command::Redo);
        ui.add_space(theme::GAP);
    }
    for (units, label) in [(Units::Mm, "mm"), (Units::INCH, "in")] {
        let chosen = session.board.units == units;
        let button = Button::selectable(chosen, label).frame_when_inactive(true);
        let clicked = ui
            .add(button)
            .on_hover_text(Command::Units.tooltip())
            .clicked();
        add(clicked && !chosen, Command::Units);
    }
    ui.add_space(theme::GAP);
    if room >= ROOM_FOR_THEME {
        let theme = if ui.visuals().dark_mode {
            "Light"
        } else {
            "Dark"
        };
        add(
            ui.button(theme)
                .on_hover_text(Command::Theme.tooltip())
                .clicked(),
            Command::Theme,
        );
        ui.add_space(theme::GAP);
    }
    add(
        main_button(ui, "Export templates")
            .on_hover_text(Command::Export.tooltip())
            .clicked(),
        Command::Export,
    );
}
