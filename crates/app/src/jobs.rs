//! Work beside the window: dialogs that block, and exports.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use crate::host::{Host, Picked};

/// What a job came to.
pub enum Outcome {
    /// A dialog was answered.
    Picked(Picked),
    /// Files were written, or not, and why.
    Exported(Result<Vec<PathBuf>, String>),
}

/// Work beside the window; one job at a time.
pub struct Jobs {
    sender: Sender<Outcome>,
    receiver: Receiver<Outcome>,
    running: Option<&'static str>,
}

impl Jobs {
    /// None running.
    pub fn new() -> Self {
        let (sender, receiver) = channel();
        Self {
            sender,
            receiver,
            running: None,
        }
    }

    /// What is running, in words.
    pub fn running(&self) -> Option<&'static str> {
        self.running
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
        work: impl FnOnce(&dyn Host) -> Outcome + Send + 'static,
    ) -> Result<(), String> {
        if let Some(running) = self.running {
            return Err(format!(
                "{running} is not finished yet; {what} can begin after it"
            ));
        }
        self.running = Some(what);
        let (sender, ctx, theirs) = (self.sender.clone(), ctx.clone(), host.clone());
        host.spawn(
            what,
            Box::new(move || {
                // A window that is gone wants no answer.
                let _ = sender.send(work(&*theirs));
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
