//! Help in the window: the guide, the keys, the words of the trade, and a search over all of it.

mod guide;
mod keys;
mod search;
mod sketch;
mod words;

use egui::{Context, Id, ScrollArea, Ui, Window, pos2, vec2};
use egui_commonmark::CommonMarkCache;

use crate::stage::Stage;

pub use guide::CHAPTERS;
pub use search::{Found, SearchState, search_ui};

/// The window of help beside the work.
#[derive(Default)]
pub struct Help {
    /// Whether it is shown.
    pub shown: bool,
    /// The page in front.
    pub page: Page,
    /// The chapter of the guide, by its place in the list.
    pub chapter: usize,
    /// A word to bring into view, by its place in the list.
    word: Option<usize>,
    /// The word that stands out.
    chosen: Option<usize>,
    /// Whether it was opened in the last frame, and takes the focus now.
    is_new: bool,
    /// The widget that had the focus before it was opened, which gets it back.
    pub before: Option<Id>,
    /// Whether a text or a list was open at the end of the last frame, which Escape then closes instead.
    was_busy: bool,
    /// The chapter that was shown last: another one begins at its top.
    last: Option<usize>,
    /// The laid out text of the chapters.
    cache: CommonMarkCache,
}

/// A page of help.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Page {
    /// The guide.
    #[default]
    Guide,
    /// The keys.
    Keys,
    /// The words of the trade.
    Words,
}

impl Page {
    /// Every page, in the order of their tabs.
    const ALL: [Self; 3] = [Self::Guide, Self::Keys, Self::Words];

    /// The words on its tab.
    const fn label(self) -> &'static str {
        match self {
            Self::Guide => "Guide",
            Self::Keys => "Keyboard shortcuts",
            Self::Words => "Words explained",
        }
    }
}

impl Help {
    /// Shows a page.
    pub const fn open(&mut self, page: Page) {
        self.is_new = !self.shown || self.is_new;
        self.shown = true;
        self.page = page;
    }

    /// Shows the guide at the chapter of a stage.
    pub fn open_at(&mut self, stage: Stage) {
        self.open(Page::Guide);
        self.chapter = guide::chapter_of(stage);
    }

    /// The word that stands out, by its place in the list.
    #[cfg(test)]
    pub const fn chosen(&self) -> Option<usize> {
        self.chosen
    }

    /// Shows a word with its meaning.
    pub const fn open_word(&mut self, word: usize) {
        self.open(Page::Words);
        (self.word, self.chosen) = (Some(word), Some(word));
    }

    /// Shows a chapter of the guide.
    pub const fn open_chapter(&mut self, chapter: usize) {
        self.open(Page::Guide);
        self.chapter = chapter;
    }
}

/// Shows help over the board, beside which the work goes on.
pub fn help_ui(ctx: &Context, help: &mut Help) {
    if !help.shown {
        return;
    }
    let room = ctx.content_rect().size();
    let mut shown = true;
    Window::new("Help")
        .id(Id::unique("help"))
        .open(&mut shown)
        .default_pos(pos2(300.0, 90.0))
        .default_size(vec2(560.0, 460.0).min(room - vec2(80.0, 120.0)))
        .max_size(room - vec2(40.0, 60.0))
        .collapsible(false)
        .show(ctx, |ui| pages_ui(ui, help));
    let escaped = ctx.input(|input| input.key_pressed(egui::Key::Escape)) && !help.was_busy;
    help.was_busy = ctx.text_edit_focused() || egui::Popup::is_any_open(ctx);
    help.shown = shown && !escaped;
    if !help.shown
        && let Some(before) = help.before.take()
    {
        ctx.memory_mut(|memory| memory.request_focus(before));
    }
}

fn pages_ui(ui: &mut Ui, help: &mut Help) {
    ui.horizontal_wrapped(|ui| {
        for page in Page::ALL {
            let tab = ui.selectable_value(&mut help.page, page, page.label());
            if help.is_new && help.page == page {
                tab.request_focus();
            }
        }
    });
    help.is_new = false;
    ui.separator();
    if help.page == Page::Guide {
        guide::choose_ui(ui, &mut help.chapter);
    }
    let mut area = ScrollArea::vertical()
        .id_salt((help.page as u8, help.chapter))
        .auto_shrink(false);
    if help.page == Page::Guide && help.last != Some(help.chapter) {
        area = area.vertical_scroll_offset(0.0);
        help.last = Some(help.chapter);
    }
    area.show(ui, |ui| match help.page {
        Page::Guide => guide::chapter_ui(ui, &mut help.cache, &mut help.chapter),
        Page::Keys => keys::keys_ui(ui),
        Page::Words => words::words_ui(ui, help.word.take(), help.chosen),
    });
}
