//! Ringwright: the window, or a command without one.

use std::process::ExitCode;

use app::cli::{Asked, Cli, run};

/// The window's growing meshes go back to the system each frame under the standard allocator; this one
/// keeps them, and a frame takes a third of the time.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let words: Vec<_> = std::env::args_os().collect();
    let cli = Cli::of(&words).unwrap_or_else(|error| error.exit());
    match run(cli, &mut std::io::stdout(), &mut std::io::stderr()) {
        Asked::Done(code) => code,
        Asked::Window(file) => app::window::run(file.as_deref(), &mut std::io::stderr()),
    }
}
