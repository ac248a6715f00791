//! The wood under the drawing: worked out beside the window once for each wood, and kept on the graphics card.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use board::{Build, Rgb, Wood};
use egui::{ColorImage, Context, TextureHandle, TextureId, TextureOptions};
use picture::wood_face;
use workshop::Workpiece;

use crate::host::Host;
use crate::palette::Palette;

/// The wood of the board that is shown.
#[derive(Default)]
pub struct WoodFace {
    key: Option<Key>,
    coming: Option<Receiver<ColorImage>>,
    texture: Option<TextureHandle>,
}

/// All that the figure of the wood follows from.
#[derive(Clone, PartialEq)]
struct Key {
    wood: Wood,
    build: Build,
    diameter: f64,
    trim: f64,
    ground: Rgb,
}

/// Pixels along each side; a window hardly has more for the board, and they come onto the graphics card within a frame.
const SIDE: u32 = 800;

impl WoodFace {
    /// The picture of the wood of a workpiece; none where no wood is chosen, or while it is worked out.
    pub fn of(
        &mut self,
        ctx: &Context,
        host: &dyn Host,
        workpiece: &Arc<Workpiece>,
        palette: &Palette,
    ) -> Option<TextureId> {
        let board = workpiece.board();
        let [red, green, blue, _] = palette.wood.to_array();
        let key = Key {
            wood: board.wood.clone()?,
            build: board.panel.build.clone(),
            diameter: board.blank.diameter,
            trim: board.stock.trim,
            ground: Rgb::new(red, green, blue),
        };
        self.take(ctx);
        if self.key.as_ref() != Some(&key) && self.coming.is_none() {
            self.coming = Some(begin(ctx, host, workpiece.clone(), key.ground));
            self.key = Some(key);
            self.take(ctx);
        }
        self.texture.as_ref().map(TextureHandle::id)
    }
}

impl WoodFace {
    /// Takes the picture that was begun, if it is ready.
    fn take(&mut self, ctx: &Context) {
        match self.coming.as_ref().map(Receiver::try_recv) {
            Some(Ok(image)) => {
                let texture = ctx.load_texture("wood", image, TextureOptions::LINEAR);
                (self.texture, self.coming) = (Some(texture), None);
            }
            Some(Err(TryRecvError::Disconnected)) => self.coming = None,
            Some(Err(TryRecvError::Empty)) | None => {}
        }
    }
}

fn begin(
    ctx: &Context,
    host: &dyn Host,
    workpiece: Arc<Workpiece>,
    ground: Rgb,
) -> Receiver<ColorImage> {
    let (sender, receiver) = channel();
    let ctx = ctx.clone();
    host.spawn(
        "the wood",
        Box::new(move || {
            let picture = wood_face(&workpiece, SIDE, ground);
            let size = [picture.width as usize, picture.height as usize];
            // A window that is gone wants no picture.
            let _ = sender.send(ColorImage::from_rgba_premultiplied(size, &picture.rgba));
            ctx.request_repaint();
        }),
    );
    receiver
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    use crate::fake::Fake;

    #[test]
    fn wood_is_shown_where_it_is_chosen_and_kept_while_it_is_the_same() {
        let (ctx, host) = (Context::default(), Fake::new());
        let palette = Palette::of(&egui::Visuals::light());
        let mut face = WoodFace::default();
        let bare = Arc::new(Workpiece::of(&Board::default()).unwrap());
        assert_eq!(face.of(&ctx, &host, &bare, &palette), None);
        let board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let walnut = Arc::new(Workpiece::of(&board).unwrap());
        let first = face.of(&ctx, &host, &walnut, &palette);
        assert!(first.is_some());
        assert_eq!(face.of(&ctx, &host, &walnut, &palette), first);
    }
}
