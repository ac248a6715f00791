//! The window without a screen, for benches: a frame up to the triangles that a graphics card would get.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use board::Board;
use kurbo::Size;

use super::App;
use crate::exports::Moment;
use crate::files::{FilesError, Printing};
use crate::host::{Ask, Desktop, Held, Host, Picked};
use crate::session::Session;
use crate::settings::Settings;
use crate::theme;
use crate::view::Face;

/// A world without files, so that a bench leaves those of the maker alone.
struct Nowhere;

impl Host for Nowhere {
    fn read(&self, path: &Path, _most: u64) -> Result<Vec<u8>, FilesError> {
        Err(FilesError::Read {
            reason: std::io::ErrorKind::NotFound.into(),
            path: path.into(),
        })
    }

    fn write(&self, _path: &Path, _bytes: &[u8]) -> Result<(), FilesError> {
        Ok(())
    }

    fn write_private(&self, _path: &Path, _bytes: &[u8]) -> Result<(), FilesError> {
        Ok(())
    }

    fn write_all(
        &self,
        _folder: &Path,
        _files: &[(String, Vec<u8>)],
        _replace: bool,
    ) -> Result<Vec<PathBuf>, FilesError> {
        Ok(Vec::new())
    }

    fn remove(&self, _path: &Path) {}

    fn set_aside(&self, _path: &Path) -> Option<PathBuf> {
        None
    }

    fn hold(&self, _path: &Path) -> Option<Held> {
        None
    }

    fn sweep(&self, _folder: &Path) {}

    fn absolute(&self, path: &Path) -> PathBuf {
        path.into()
    }

    fn exists(&self, _path: &Path) -> bool {
        false
    }

    fn pick(&self, _ask: &Ask) -> Picked {
        Picked::NoDialog
    }

    fn show(&self, _: &Path) -> Result<(), String> {
        Ok(())
    }

    fn print(&self, _: &Path, _: Size) -> Result<Printing, String> {
        Ok(Printing::Shown)
    }

    fn documents(&self) -> PathBuf {
        PathBuf::new()
    }

    fn settings_folder(&self) -> Option<PathBuf> {
        None
    }

    fn make_folder(&self, _folder: &Path) -> Result<(), FilesError> {
        Ok(())
    }

    fn today(&self) -> Moment {
        Desktop.today()
    }

    fn zone(&self) -> String {
        Desktop.zone()
    }

    fn now(&self) -> jiff::Timestamp {
        Desktop.now()
    }

    fn clock(&self) -> String {
        Desktop.clock()
    }

    fn spawn(&self, name: &str, work: Box<dyn FnOnce() + Send>) {
        Desktop.spawn(name, work);
    }
}

/// The window without a screen.
pub struct Headless {
    ctx: egui::Context,
    app: App,
}

impl Headless {
    /// Opens on a board.
    pub fn new(board: Board) -> Self {
        let ctx = egui::Context::default();
        theme::install(&ctx);
        let mut app = App::new(&ctx, Settings::default(), Arc::new(Nowhere), None);
        app.begin(Session::new(board));
        let mut window = Self { ctx, app };
        // Fonts and sizes settle in the first frames.
        for _ in 0..3 {
            window.frame();
        }
        window
    }

    /// Changes the document, as a field does.
    pub fn edit(&mut self, change: impl FnOnce(&mut Board)) {
        change(&mut self.app.session.board);
    }

    /// The names of all views of the drawing, as on their tabs.
    pub fn views() -> [&'static str; 8] {
        Face::ALL.map(Face::label)
    }

    /// Shows the view with a name; an unknown name is ignored.
    pub fn turn_to(&mut self, name: &str) {
        let view = Face::ALL.into_iter().find(|face| face.label() == name);
        self.app.view.face = view.unwrap_or(self.app.view.face);
    }

    /// Draws a frame; returns its number of triangles.
    pub fn frame(&mut self) -> usize {
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1280.0, 820.0));
        let input = egui::RawInput {
            screen_rect: Some(screen),
            ..egui::RawInput::default()
        };
        let app = &mut self.app;
        let mut output = self.ctx.run_ui(input, |ui| app.show(ui));
        output.textures_delta.clear();
        let parts = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        let triangles = |part: &egui::ClippedPrimitive| match &part.primitive {
            egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
            egui::epaint::Primitive::Callback(_) => 0,
        };
        parts.iter().map(triangles).sum()
    }
}
