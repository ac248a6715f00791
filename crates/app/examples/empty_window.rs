//! An empty window, to hold the program's start against: it closes itself after its first frame. With the
//! argument `ringwright` it is the program's own window instead.

/// As in the program itself.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

struct Once(Option<app::window::App>);

impl eframe::App for Once {
    fn ui(&mut self, ui: &mut egui::Ui, frame: &mut eframe::Frame) {
        // The first frame is on the screen when the second begins.
        if ui.ctx().cumulative_frame_nr() > 0 {
            ui.ctx().send_viewport_cmd(egui::ViewportCommand::Close);
        } else if let Some(app) = &mut self.0 {
            app.ui(ui, frame);
        }
        ui.ctx().request_repaint();
    }
}

fn main() -> eframe::Result {
    let full = std::env::args().any(|argument| argument == "ringwright");
    let options = eframe::NativeOptions {
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    let start = move |cc: &eframe::CreationContext<'_>| -> Result<Box<dyn eframe::App>, _> {
        Ok(Box::new(Once(
            full.then(|| app::window::App::sample(&cc.egui_ctx)),
        )))
    };
    eframe::run_native("empty", options, Box::new(start))
}
