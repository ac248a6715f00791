//! Work beside the window: dialogs that block, and exports.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use kurbo::Size;

use crate::exports::LeftOut;
use crate::files::Printing;
use crate::host::{Ask, Host, Picked};
use crate::watch::Watch;

/// The result of a job.
pub enum Outcome {
    /// A dialog was answered.
    Picked(Ask, Picked),
    /// The job failed by an internal error.
    Broken(&'static str),
    /// Files were written, or not, and why.
    Exported(Result<Written, String>),
    /// A file, by its name, was printed or opened, or not, and why.
    Printed(String, Result<Printing, String>),
}

/// The files that an export has written, and the kinds that could not be made, each with why.
pub struct Written {
    /// The files.
    pub files: Vec<WrittenFile>,
    /// Kinds that were left out.
    pub left_out: Vec<LeftOut>,
}

/// A file that an export has written.
pub struct WrittenFile {
    /// Its path.
    pub path: PathBuf,
    /// Width and height of its pages, mm; none where it has no pages.
    pub page: Option<Size>,
}

/// The name of an export among the jobs.
pub const EXPORT: &str = "the export";

/// Work beside the window; one job at a time.
pub struct Jobs {
    sender: Sender<Outcome>,
    receiver: Receiver<Outcome>,
    running: Option<&'static str>,
    watch: Arc<Watch>,
}

impl Jobs {
    /// None running.
    pub fn new() -> Self {
        let (sender, receiver) = channel();
        Self {
            sender,
            receiver,
            running: None,
            watch: Arc::default(),
        }
    }

    /// The watch over the running job.
    pub fn watch(&self) -> &Watch {
        &self.watch
    }

    /// The job that is running, in words.
    pub fn running(&self) -> Option<&'static str> {
        self.running
    }

    /// Whether files are being written, which a closing window would leave half done.
    pub fn is_exporting(&self) -> bool {
        self.running == Some(EXPORT)
    }

    /// Starts a job.
    ///
    /// # Errors
    /// A sentence, where another job is still running.
    pub fn start(
        &mut self,
        ctx: &egui::Context,
        host: &Arc<dyn Host>,
        what: &'static str,
        work: impl FnOnce(&dyn Host, &Arc<Watch>) -> Outcome + Send + 'static,
    ) -> Result<(), String> {
        if let Some(running) = self.running {
            return Err(format!(
                "{running} is not finished yet; {what} can begin after it"
            ));
        }
        self.running = Some(what);
        self.watch = Arc::default();
        let watch = self.watch.clone();
        let (sender, ctx, theirs) = (self.sender.clone(), ctx.clone(), host.clone());
        host.spawn(
            what,
            Box::new(move || {
                // A job that breaks must not keep the others waiting for ever.
                let work = std::panic::AssertUnwindSafe(|| work(&*theirs, &watch));
                let outcome = std::panic::catch_unwind(work).unwrap_or(Outcome::Broken(what));
                // Fails only where the window was closed, and then the result is not needed.
                let _ = sender.send(outcome);
                ctx.request_repaint();
            }),
        );
        Ok(())
    }

    /// The job that has finished since the last look.
    pub fn finished(&mut self) -> Option<Outcome> {
        let outcome = self.receiver.try_recv().ok()?;
        self.running = None;
        Some(outcome)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fake::Fake;

    #[test]
    fn a_job_that_breaks_is_told_and_makes_way() {
        let (mut jobs, ctx) = (Jobs::new(), egui::Context::default());
        let host: Arc<dyn Host> = Arc::new(Fake::new());
        let quiet = std::panic::take_hook();
        std::panic::set_hook(Box::new(|_| {}));
        let started = jobs.start(&ctx, &host, "a broken job", |_, _| panic!("on purpose"));
        std::panic::set_hook(quiet);
        assert_eq!(started, Ok(()));
        assert!(matches!(
            jobs.finished(),
            Some(Outcome::Broken("a broken job"))
        ));
        assert_eq!(jobs.running(), None);
    }
}
