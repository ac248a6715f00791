//! The window without a screen, for benches: a frame up to the triangles that a graphics card would get.

use board::Board;

use super::App;
use crate::session::Session;

/// The window without a screen.
pub struct Headless {
    ctx: egui::Context,
    app: App,
}

impl Headless {
    /// Opens on a board.
    pub fn new(board: Board) -> Self {
        let ctx = egui::Context::default();
        let mut app = App::sample(&ctx);
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

    /// Draws a frame; tells how many triangles it has.
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
