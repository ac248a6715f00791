//! The preview of an export, page by page, before it is written.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};

use egui::{
    Align, ColorImage, Context, Key, Layout, RichText, ScrollArea, TextStyle, TextureHandle,
    TextureId, TextureOptions, Ui, Vec2,
};
use picture::Picture;

use crate::exports::{Content, Kind, Part, Source};
use crate::host::Host;
use crate::sheet_view::{SheetViewState, illustrated_ui, sheet_view_ui};
use crate::theme;

/// The preview of a kind of export; worked out beside the window.
pub struct Preview {
    kind: Option<Kind>,
    made: Made,
    page: usize,
    view: SheetViewState,
    /// The picture that is shown, as a texture, and its page.
    texture: Option<(usize, TextureHandle)>,
}

enum Made {
    Pending(Receiver<Result<Content, String>>),
    Done(Content),
    Failed(String),
    Nothing,
}

/// Lines of a text that are shown at most; a program has more than anyone reads here.
const MOST_LINES: usize = 2000;

impl Preview {
    /// Nothing yet.
    pub fn new() -> Self {
        Self {
            kind: None,
            made: Made::Nothing,
            page: 0,
            view: SheetViewState::default(),
            texture: None,
        }
    }

    /// The kind that is shown.
    pub const fn kind(&self) -> Option<Kind> {
        self.kind
    }

    /// Shows a kind from its first page; it is made beside the window.
    pub fn show(&mut self, ctx: &Context, host: &dyn Host, source: &Arc<Source>, kind: Kind) {
        if self.kind == Some(kind) {
            return;
        }
        let (sender, receiver) = channel();
        let (source, theirs) = (source.clone(), ctx.clone());
        host.spawn(
            "a preview",
            Box::new(move || {
                let content = source
                    .content(kind)
                    .map_err(|error| source.board().units.say(&error));
                // Sending fails only if the dialog was closed, and then the result is not needed.
                let _ = sender.send(content);
                theirs.request_repaint();
            }),
        );
        *self = Self {
            kind: Some(kind),
            made: Made::Pending(receiver),
            ..Self::new()
        };
    }

    fn take(&mut self) {
        let Made::Pending(receiver) = &self.made else {
            return;
        };
        match receiver.try_recv() {
            Ok(Ok(content)) => self.made = Made::Done(content),
            Ok(Err(fault)) => self.made = Made::Failed(fault),
            Err(std::sync::mpsc::TryRecvError::Empty) => {}
            Err(std::sync::mpsc::TryRecvError::Disconnected) => {
                self.made = Made::Failed("this preview failed: internal error".into());
            }
        }
    }
}

/// One page after the other, with what each is called.
pub fn preview_ui(ui: &mut Ui, preview: &mut Preview, size: Vec2) {
    preview.take();
    let column = Layout::top_down(Align::Min);
    ui.allocate_ui_with_layout(size, column, |ui| {
        ui.set_min_size(size);
        ui.set_max_size(size);
        match &preview.made {
            Made::Nothing => {}
            Made::Pending(_) => {
                ui.centered_and_justified(egui::Ui::spinner);
            }
            Made::Failed(fault) => {
                let color = theme::Tokens::of(ui).stop;
                ui.label(RichText::new(format!("▲ {fault}")).color(color));
            }
            Made::Done(content) => {
                let parts = content.parts();
                step_ui(ui, &parts, &mut preview.page, &mut preview.view);
                preview.page = preview.page.min(parts.len().saturating_sub(1));
                match parts.get(preview.page) {
                    Some((_, Part::Sheet(sheet))) => {
                        let size = ui.available_size();
                        sheet_view_ui(ui, size, sheet, "Preview of the sheet", &mut preview.view);
                    }
                    Some((_, Part::Illustrated(sheet, picture, area))) => {
                        let page = (preview.page, *picture);
                        let texture = texture_of(ui.ctx(), page, &mut preview.texture);
                        let size = ui.available_size();
                        let shown = (*sheet, Some((texture, *area)));
                        let name = "Preview of the sheet";
                        illustrated_ui(ui, size, shown, name, &mut preview.view);
                    }
                    Some((_, Part::Picture(picture))) => {
                        picture_ui(ui, (preview.page, picture), &mut preview.texture);
                    }
                    Some((_, Part::Text(text))) => text_ui(ui, &String::from_utf8_lossy(text)),
                    None => {}
                }
            }
        }
    });
}

/// The number of the page, and the buttons to the other pages.
fn step_ui(ui: &mut Ui, parts: &[(String, Part<'_>)], page: &mut usize, view: &mut SheetViewState) {
    let before = *page;
    ui.horizontal(|ui| {
        let (back, on) = ui.input(|input| {
            (
                input.key_pressed(Key::PageUp),
                input.key_pressed(Key::PageDown),
            )
        });
        let previous = ui.add_enabled(*page > 0, egui::Button::new("Previous"));
        let next = ui.add_enabled(*page + 1 < parts.len(), egui::Button::new("Next"));
        if (previous.on_hover_text("Page Up").clicked() || back) && *page > 0 {
            *page -= 1;
        }
        if (next.on_hover_text("Page Down").clicked() || on) && *page + 1 < parts.len() {
            *page += 1;
        }
        if let Some((name, _)) = parts.get(*page) {
            ui.label(name);
        }
    });
    if *page != before {
        view.fit();
    }
}

/// A picture as large as there is room.
fn picture_ui(
    ui: &mut Ui,
    (page, picture): (usize, &Picture),
    texture: &mut Option<(usize, TextureHandle)>,
) {
    texture_of(ui.ctx(), (page, picture), texture);
    let room = ui.available_size();
    if let Some((_, texture)) = texture {
        let image = egui::Image::new(&*texture)
            .fit_to_exact_size(room)
            .alt_text("Preview of the proof");
        ui.centered_and_justified(|ui| ui.add(image));
    }
}

/// The picture of a page as a texture, uploaded once.
fn texture_of(
    ctx: &Context,
    (page, picture): (usize, &Picture),
    kept: &mut Option<(usize, TextureHandle)>,
) -> TextureId {
    match kept {
        Some((known, texture)) if *known == page => texture.id(),
        _ => {
            let size = [picture.width as usize, picture.height as usize];
            let image = ColorImage::from_rgba_unmultiplied(size, &picture.rgba);
            let texture = ctx.load_texture("proof", image, TextureOptions::LINEAR);
            let id = texture.id();
            *kept = Some((page, texture));
            id
        }
    }
}

fn text_ui(ui: &mut Ui, text: &str) {
    let lines: Vec<&str> = text.lines().take(MOST_LINES).collect();
    let height = ui.text_style_height(&TextStyle::Monospace);
    let area = ScrollArea::both()
        .id_salt("text of a file")
        .auto_shrink(false);
    area.show_rows(ui, height, lines.len(), |ui, rows| {
        for line in lines.get(rows).unwrap_or_default() {
            let line = egui::Label::new(RichText::new(*line).monospace()).extend();
            ui.add(line);
        }
    });
}
