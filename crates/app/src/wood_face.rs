//! The wood under the drawings: worked out beside the window once for each wood, and kept on the graphics card.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use board::{Build, Rgb, Wood};
use egui::{ColorImage, Context, TextureHandle, TextureId, TextureOptions};
use kurbo::Rect;
use picture::{BlankWood, Picture, wood_face};
use workshop::Workpiece;

use crate::host::Host;
use crate::palette::Palette;

/// The wood of the board and of the blank that are shown.
#[derive(Default)]
pub struct WoodFace {
    board: Kept<BoardKey>,
    blank: Kept<(BlankWood, Rgb)>,
}

/// All that the figure of the board's wood follows from.
#[derive(Clone, PartialEq)]
struct BoardKey {
    wood: Wood,
    build: Build,
    diameter: f64,
    trim: f64,
    /// The place of the board on its blank, as it was typed, and the best one.
    places: [Option<[f64; 2]>; 2],
    ground: Rgb,
}

/// The picture of the blank's wood, and the box on the blank that it fills, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figured {
    /// The picture.
    pub texture: TextureId,
    /// The box, in the frame of the blank.
    pub bounds: Rect,
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
        let best = workpiece.stock().and_then(|plan| plan.best.as_ref());
        let best = best.map(|best| [best.circle.center.x, best.circle.center.y]);
        let key = BoardKey {
            wood: board.wood.clone()?,
            build: board.panel.build.clone(),
            diameter: board.blank.diameter,
            trim: board.stock.trim,
            places: [board.stock.place, best],
            ground: ground(palette),
        };
        let (workpiece, color) = (workpiece.clone(), key.ground);
        let paint = move || wood_face(&workpiece, SIDE, color);
        self.board
            .of((ctx, host), &key, paint)
            .map(|(_, texture)| texture)
    }

    /// The picture of the wood of the blank of a workpiece; none where no wood is chosen or no blank is known, or while it
    /// is worked out for the first time.
    ///
    /// While it is worked out again the older one is shown, in the box that it was made for.
    pub fn of_blank(
        &mut self,
        ctx: &Context,
        host: &dyn Host,
        workpiece: &Workpiece,
        palette: &Palette,
    ) -> Option<Figured> {
        let key = (BlankWood::of(workpiece)?, ground(palette));
        let (wood, color) = key.clone();
        let paint = move || wood.picture(color);
        let ((wood, _), texture) = self.blank.of((ctx, host), &key, paint)?;
        Some(Figured {
            texture,
            bounds: wood.bounds(),
        })
    }
}

fn ground(palette: &Palette) -> Rgb {
    let [red, green, blue, _] = palette.wood.to_array();
    Rgb::new(red, green, blue)
}

/// A picture on the graphics card, and its key.
struct Kept<K> {
    /// The key of the picture that is worked out.
    coming: Option<(K, Receiver<ColorImage>)>,
    ready: Option<(K, TextureHandle)>,
}

impl<K> Default for Kept<K> {
    fn default() -> Self {
        Self {
            coming: None,
            ready: None,
        }
    }
}

impl<K: Clone + PartialEq> Kept<K> {
    /// The newest finished picture and its key; begins a new one if the key has changed.
    fn of(
        &mut self,
        (ctx, host): (&Context, &dyn Host),
        key: &K,
        paint: impl FnOnce() -> Picture + Send + 'static,
    ) -> Option<(&K, TextureId)> {
        self.take(ctx);
        let is_ready = self.ready.as_ref().is_some_and(|(of, _)| of == key);
        if ctx.cumulative_frame_nr() == 0 {
            // The window opens sooner where nothing else keeps the processor busy.
            ctx.request_repaint();
        } else if !is_ready && self.coming.is_none() {
            self.coming = Some((key.clone(), begin(ctx, host, paint)));
            self.take(ctx);
        }
        let (of, texture) = self.ready.as_ref()?;
        Some((of, texture.id()))
    }

    /// Takes the picture that was begun, if it is ready.
    fn take(&mut self, ctx: &Context) {
        let Some((key, coming)) = self.coming.take() else {
            return;
        };
        match coming.try_recv() {
            Ok(image) => {
                let texture = ctx.load_texture("wood", image, TextureOptions::LINEAR);
                self.ready = Some((key, texture));
            }
            Err(TryRecvError::Disconnected) => {}
            Err(TryRecvError::Empty) => self.coming = Some((key, coming)),
        }
    }
}

fn begin(
    ctx: &Context,
    host: &dyn Host,
    paint: impl FnOnce() -> Picture + Send + 'static,
) -> Receiver<ColorImage> {
    let (sender, receiver) = channel();
    let ctx = ctx.clone();
    host.spawn(
        "the wood",
        Box::new(move || {
            let picture = paint();
            let size = [picture.width as usize, picture.height as usize];
            // Fails only where the window was closed, and then the result is not needed.
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

    /// A context that has shown a frame.
    fn shown() -> Context {
        let ctx = Context::default();
        let mut output = ctx.run_ui(egui::RawInput::default(), |_| {});
        output.textures_delta.clear();
        ctx
    }

    #[test]
    fn wood_is_shown_where_it_is_chosen_and_kept_while_it_is_the_same() {
        let (ctx, host) = (shown(), Fake::new());
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

    #[test]
    fn the_blank_shows_its_wood_where_both_are_known_and_keeps_it_while_they_are_the_same() {
        let (ctx, host) = (shown(), Fake::new());
        let palette = Palette::of(&egui::Visuals::light());
        let mut face = WoodFace::default();
        let mut board = Board {
            wood: Some(Wood::default()),
            ..Board::default()
        };
        let bare = Workpiece::of(&board).unwrap();
        assert_eq!(face.of_blank(&ctx, &host, &bare, &palette), None);
        board.stock.outline = board::StockOutline::Slab {
            length: 900.0,
            width: 700.0,
            lower: vec![],
            upper: vec![],
        };
        let best = face.of_blank(&ctx, &host, &Workpiece::of(&board).unwrap(), &palette);
        assert_eq!(best.unwrap().bounds, Rect::new(0.0, 0.0, 900.0, 700.0));
        // Flaws and bores do not change the wood.
        board.bores.track.depth += 1.0;
        let same = face.of_blank(&ctx, &host, &Workpiece::of(&board).unwrap(), &palette);
        assert_eq!(same, best);
    }
}
