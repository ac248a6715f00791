//! A window of the desktop, or the reason why none opens.

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;
use std::sync::Arc;

use super::App;
use crate::host::Desktop;
use crate::settings::Settings;
use crate::theme;

/// Opens the window on a file, or on a sample board, and stays until it is closed.
///
/// If no window can be opened, a sentence says what is missing and which command does the same work.
pub fn run(file: Option<&Path>, errors: &mut dyn Write) -> ExitCode {
    let icon = eframe::icon_data::from_png_bytes(include_bytes!("../../../../assets/icon.png"));
    let mut viewport = egui::ViewportBuilder::default()
        .with_title("Ringwright")
        .with_app_id("ringwright")
        .with_inner_size([1280.0, 820.0])
        .with_min_inner_size([900.0, 600.0]);
    if let Ok(icon) = icon {
        viewport = viewport.with_icon(icon);
    }
    let options = eframe::NativeOptions {
        viewport,
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    let started = core::cell::Cell::new(false);
    let start = |cc: &eframe::CreationContext<'_>| -> Result<Box<dyn eframe::App>, Box<dyn std::error::Error + Send + Sync>> {
        started.set(true);
        theme::install(&cc.egui_ctx);
        let settings = cc.storage.and_then(|storage| eframe::get_value(storage, Settings::KEY)).unwrap_or_default();
        let mut app = App::new(&cc.egui_ctx, settings, Arc::new(Desktop), file);
        app.offer_rescue();
        Ok(Box::new(app))
    };
    // A missing system library makes the window toolkit panic rather than fail.
    let opened = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        eframe::run_native("ringwright", options, Box::new(start))
    }));
    let reason = match opened {
        Ok(Ok(())) => return ExitCode::SUCCESS,
        Ok(Err(error)) => error.to_string(),
        // A fault of our own must not pass for a missing library.
        Err(panic) if started.get() => std::panic::resume_unwind(panic),
        Err(_) => "a system library is missing".into(),
    };
    let sentence = format!(
        "no window can be opened ({}); `ringwright export FILE --out DIR` makes the same templates without one",
        missing(&reason)
    );
    // A failure to write to standard error is ignored: there is nowhere left to report it.
    let _ = writeln!(errors, "ringwright: {sentence}");
    ExitCode::from(1)
}

/// The thing that is missing, in the user's words where the toolkit's are known.
fn missing(reason: &str) -> String {
    if reason.contains("neither WAYLAND_DISPLAY") {
        return "there is no display: neither WAYLAND_DISPLAY nor DISPLAY is set".into();
    }
    if reason.contains("open connection to X") {
        return "the display that DISPLAY names does not answer".into();
    }
    reason
        .lines()
        .next()
        .unwrap_or_default()
        .chars()
        .take(160)
        .collect()
}
