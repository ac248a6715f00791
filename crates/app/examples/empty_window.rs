//! An empty window, to hold the program's start against: it closes itself after its first frame. With the argument `disc` one
//! disc is painted on it, for which a software renderer already compiles its programs; with `ringwright` it is the program's own
//! window.

/// As in the program itself.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

enum Once {
    Empty,
    Disc,
    Whole(Box<app::window::App>),
}

impl eframe::App for Once {
    fn raw_input_hook(&mut self, ctx: &egui::Context, input: &mut egui::RawInput) {
        if let Self::Whole(app) = self {
            app.raw_input_hook(ctx, input);
        }
    }

    fn ui(&mut self, ui: &mut egui::Ui, frame: &mut eframe::Frame) {
        // The first frame is on the screen when the second begins.
        if ui.ctx().cumulative_frame_nr() > 0 {
            ui.ctx().send_viewport_cmd(egui::ViewportCommand::Close);
        } else {
            match self {
                Self::Empty => {}
                Self::Disc => {
                    let middle = ui.max_rect().center();
                    ui.painter()
                        .circle_filled(middle, 90.0, egui::Color32::WHITE);
                }
                Self::Whole(app) => app.ui(ui, frame),
            }
        }
        ui.ctx().request_repaint();
    }
}

fn main() -> eframe::Result {
    let content = std::env::args().nth(1);
    let options = eframe::NativeOptions {
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    let start = move |cc: &eframe::CreationContext<'_>| -> Result<Box<dyn eframe::App>, _> {
        Ok(Box::new(match content.as_deref() {
            Some("ringwright") => Once::Whole(Box::new(app::window::App::sample(&cc.egui_ctx))),
            Some("disc") => Once::Disc,
            _ => Once::Empty,
        }))
    };
    eframe::run_native("empty", options, Box::new(start))
}
