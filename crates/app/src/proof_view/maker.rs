//! Works pictures out beside the window: a coarse one at once, a fine one if no other is requested meanwhile.

use std::collections::VecDeque;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};

use egui::{ColorImage, Context};
use picture::{GroundColors, PAPER, Picture, View, glimpse};
use workshop::Workpiece;

use crate::host::Host;

/// A picture that is wanted.
#[derive(Clone)]
pub struct Wish {
    /// The board.
    pub workpiece: Arc<Workpiece>,
    /// The point of view.
    pub view: View,
    /// Width and height, pixels.
    pub size: (u32, u32),
    /// Whether the window is dark.
    pub is_dark: bool,
}

impl PartialEq for Wish {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.workpiece, &other.workpiece)
            && (self.view, self.size, self.is_dark) == (other.view, other.size, other.is_dark)
    }
}

/// A picture that is ready, in strips from the top.
pub struct Glimpse {
    /// Width and height, pixels.
    pub size: [usize; 2],
    /// The strips.
    pub strips: VecDeque<ColorImage>,
}

/// Makes pictures, one after the other.
pub struct Maker {
    desk: Arc<Mutex<Desk>>,
    sender: Sender<Glimpse>,
    receiver: Receiver<Glimpse>,
}

/// The requested picture, and whether a thread works on it.
#[derive(Default)]
struct Desk {
    wish: Option<Wish>,
    is_busy: bool,
    /// Whether the last picture failed by an internal error.
    is_broken: bool,
}

/// Frees the desk where a picture breaks by a fault of the program, so that the next one is made all the same.
struct AtWork<'a>(&'a Mutex<Desk>);

impl Drop for AtWork<'_> {
    fn drop(&mut self) {
        if std::thread::panicking() {
            let mut desk = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            (desk.is_busy, desk.is_broken) = (false, true);
        }
    }
}

/// Longer side of the coarse picture, pixels; it is worked out between two frames.
const COARSE: u32 = 300;
/// Pixels of a strip: so many come onto the graphics card within a few milliseconds.
const STRIP: usize = 300_000;
/// The ground in a dark window.
const NIGHT: GroundColors = GroundColors {
    light: [0x4c, 0x4a, 0x47],
    dark: [0x2e, 0x2d, 0x2b],
};

impl Default for Maker {
    fn default() -> Self {
        let (sender, receiver) = channel();
        Self {
            desk: Arc::default(),
            sender,
            receiver,
        }
    }
}

impl Maker {
    /// Requests a picture; an earlier request that is not begun yet is dropped.
    pub fn ask(&self, ctx: &Context, host: &dyn Host, wish: Wish) {
        let is_busy = {
            let mut desk = self.desk.lock().unwrap_or_else(PoisonError::into_inner);
            desk.wish = Some(wish);
            desk.is_broken = false;
            core::mem::replace(&mut desk.is_busy, true)
        };
        if is_busy {
            return;
        }
        let (desk, sender, ctx) = (self.desk.clone(), self.sender.clone(), ctx.clone());
        host.spawn("a proof", Box::new(move || work(&desk, &sender, &ctx)));
    }

    /// Whether the last picture failed by an internal error.
    pub fn is_broken(&self) -> bool {
        let desk = self.desk.lock().unwrap_or_else(PoisonError::into_inner);
        desk.is_broken
    }

    /// The picture that is ready, the newest of several.
    pub fn newest(&self) -> Option<Glimpse> {
        self.receiver.try_iter().last()
    }
}

/// Works until no request is left.
fn work(desk: &Mutex<Desk>, sender: &Sender<Glimpse>, ctx: &Context) {
    let open = || desk.lock().unwrap_or_else(PoisonError::into_inner);
    let is_waiting = || open().wish.is_some();
    let _at_work = AtWork(desk);
    loop {
        let wish = {
            let mut desk = open();
            let wish = desk.wish.take();
            desk.is_busy = wish.is_some();
            wish
        };
        let Some(wish) = wish else {
            return;
        };
        for size in sizes(wish.size) {
            let is_coarse = size != wish.size;
            let cancel = || !is_coarse && is_waiting();
            let ground = if wish.is_dark { NIGHT } else { PAPER };
            if let Ok(picture) = glimpse(&wish.workpiece, wish.view, size, ground, &cancel) {
                // Fails only where the window was closed, and then the result is not needed.
                let _ = sender.send(cut(&picture));
                ctx.request_repaint();
            }
            if is_waiting() {
                break;
            }
        }
    }
}

/// The coarse size, where it is smaller, and the one that is wanted.
fn sizes((width, height): (u32, u32)) -> Vec<(u32, u32)> {
    let longest = width.max(height);
    let mut sizes = vec![(width, height)];
    if longest > 2 * COARSE {
        let scaled = |side: u32| (side * COARSE / longest).max(32);
        sizes.insert(0, (scaled(width), scaled(height)));
    }
    sizes
}

/// A picture in strips.
fn cut(picture: &Picture) -> Glimpse {
    let [width, height] = [picture.width, picture.height].map(|side| side as usize);
    let rows = (STRIP / width.max(1)).clamp(1, height.max(1));
    let strips = picture.rgba.chunks(rows * width * 4);
    let image = |strip: &[u8]| {
        let size = [width, strip.len() / (width * 4)];
        ColorImage::from_rgba_premultiplied(size, strip)
    };
    Glimpse {
        size: [width, height],
        strips: strips.map(image).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    use crate::fake::Fake;

    #[test]
    fn strips_are_the_whole_picture() {
        let picture = Picture {
            width: 1000,
            height: 650,
            rgba: vec![255; 1000 * 650 * 4],
        };
        let glimpse = cut(&picture);
        let rows: usize = glimpse.strips.iter().map(|strip| strip.size[1]).sum();
        assert_eq!((glimpse.size, rows), ([1000, 650], 650));
        assert!(glimpse.strips.len() > 1);
    }

    #[test]
    fn a_picture_comes_coarse_and_then_fine() {
        assert_eq!(sizes((1200, 900)), [(300, 225), (1200, 900)]);
        assert_eq!(sizes((400, 300)), [(400, 300)]);
        let workpiece = Arc::new(Workpiece::of(&Board::default()).unwrap());
        let wish = Wish {
            workpiece,
            view: View::Above,
            size: (640, 480),
            is_dark: false,
        };
        let maker = Maker::default();
        maker.ask(&Context::default(), &Fake::new(), wish);
        assert_eq!(maker.newest().unwrap().size, [640, 480]);
        assert!(!maker.desk.lock().unwrap().is_busy);
    }
}
