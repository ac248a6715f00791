//! The board that comes of an order: worked out beside the window, since the search for its sizes takes longer than a frame.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use board::{Board, Field, Shop, show_length};
use egui::Context;
use workshop::{ProposeError, Workpiece, propose_order};

use super::Asked;
use crate::host::Host;

/// A board that was proposed.
pub struct Proposed {
    /// The board, laid out.
    pub workpiece: Arc<Workpiece>,
    /// The fields of the shop that would stop it.
    pub left_out: Vec<&'static Field>,
}

/// A board, or why there is none.
pub type Made = Result<Arc<Proposed>, ProposeError>;

/// The board for the current order, the order being worked out, and the last board that was made.
#[derive(Default)]
pub struct Proposals {
    done: Option<(Asked, Made)>,
    coming: Option<(Asked, Receiver<Made>)>,
    last: Option<Arc<Proposed>>,
}

impl Proposals {
    /// Collects a finished proposal, and starts on the one for `asked` unless one is under way or it is known already.
    pub fn ask(&mut self, ctx: &Context, host: &dyn Host, shop: &Shop, asked: &Asked) {
        self.collect();
        if self.coming.is_some() || self.of(asked).is_some() {
            return;
        }
        let (sender, receiver) = channel();
        let (theirs, shop, ctx) = (asked.clone(), shop.clone(), ctx.clone());
        host.spawn(
            "the new board",
            Box::new(move || {
                // Sending fails only if the dialog was closed, and then the result is not needed.
                let _ = sender.send(propose_at_once(&theirs, &shop));
                ctx.request_repaint();
            }),
        );
        self.coming = Some((asked.clone(), receiver));
        self.collect();
    }

    fn collect(&mut self) {
        let Some((_, receiver)) = &self.coming else {
            return;
        };
        let made = match receiver.try_recv() {
            Ok(made) => made,
            Err(TryRecvError::Empty) => return,
            Err(TryRecvError::Disconnected) => {
                self.coming = None;
                return;
            }
        };
        if let Ok(proposed) = &made {
            self.last = Some(proposed.clone());
        }
        self.done = self.coming.take().map(|(asked, _)| (asked, made));
    }

    /// The board worked out for an order, or why there is none; none while it is worked out.
    pub fn of(&self, asked: &Asked) -> Option<&Made> {
        let done = self.done.as_ref().filter(|(order, _)| order == asked);
        done.map(|(_, made)| made)
    }

    /// The last board that could be made, shown while the next is worked out.
    pub fn last(&self) -> Option<Arc<Proposed>> {
        self.last.clone()
    }
}

/// The board for an order, with what the shop has if it is to begin with that.
pub fn propose_at_once(asked: &Asked, shop: &Shop) -> Made {
    let none = Shop::default();
    let shop = if asked.with_shop { shop } else { &none };
    let (board, left_out) = propose_order(&asked.order, shop)?;
    let workpiece = Arc::new(Workpiece::of(&board)?);
    Ok(Arc::new(Proposed {
        workpiece,
        left_out,
    }))
}

impl Proposed {
    /// The sizes that a maker looks for first, line by line.
    pub fn words(&self) -> Vec<String> {
        let board: &Board = self.workpiece.board();
        let length = |mm| show_length(mm, board.units);
        let holes = self.workpiece.layout().holes.len();
        let mut lines = vec![
            format!(
                "Board {} across, {} thick",
                length(board.blank.diameter),
                length(board.blank.thickness)
            ),
            format!("{holes} holes, spacing {}", length(board.pitch)),
            format!(
                "Pieces of {} in holes of {}",
                length(board.piece.diameter),
                length(board.bores.track.diameter)
            ),
        ];
        if let Ok(tiling) = self.workpiece.tiling() {
            lines.push(format!(
                "Template on {}",
                tiling.words(board.template.paper)
            ));
        }
        lines
    }
}
