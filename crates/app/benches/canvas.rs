//! Speed of the canvas alone: from a layout to the triangles that a graphics card would get.

use std::sync::Arc;

use app::canvas::{BoardView, CanvasState, board_ui};
use board::{Blank, Board, HoleId, Role, Units};
use divan::Bencher;
use egui::epaint::Primitive;
use egui::{Context, Pos2, RawInput, Rect, vec2};
use workshop::Workpiece;

/// As in the program itself.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

const HOLES: [u32; 3] = [145, 1_000, 9_000];

/// A ring for 24 players with about so many holes, or the board one starts from.
fn board(holes: u32) -> Board {
    let plain = Board::default();
    if holes == 145 {
        return plain;
    }
    // As many as are allowed, and the rest in lanes and pockets.
    let most = *geometry::SPACES.end();
    let lanes = if holes / 24 > most { 60 } else { plain.home };
    let spaces = (holes / 24 - 2 * lanes).min(most);
    let diameter = 2.0 * geometry::ring_radius(plain.pitch, 24 * spaces) + 60.0;
    // Very many spaces make a board larger than may be; then they stand closer.
    let shrunk = (5000.0 / diameter).min(1.0);
    Board {
        players: 24,
        spaces,
        home: lanes,
        start: lanes,
        pitch: shrunk * plain.pitch,
        blank: Blank {
            diameter: shrunk * diameter,
            ..plain.blank
        },
        ..plain
    }
}

/// A canvas without a screen.
struct Stage {
    ctx: Context,
    workpiece: Arc<Workpiece>,
    plan: Vec<drawing::Item>,
    lit: Vec<HoleId>,
    state: CanvasState,
    pointer: Pos2,
}

impl Stage {
    fn new(holes: u32) -> Option<Self> {
        let board = board(holes);
        let workpiece = Workpiece::of(&board).ok()?;
        let mut stage = Self {
            ctx: Context::default(),
            plan: drawing::plan(&workpiece),
            lit: (1..=4)
                .map(|number| HoleId::new(Role::Home, 1, number))
                .collect(),
            workpiece: Arc::new(workpiece),
            state: CanvasState::default(),
            pointer: Pos2::ZERO,
        };
        let mut fonts = egui::FontDefinitions::empty();
        let data = egui::FontData::from_static(drawing::font::REGULAR);
        fonts.font_data.insert("regular".into(), data.into());
        for family in [egui::FontFamily::Proportional, egui::FontFamily::Monospace] {
            fonts.families.insert(family, vec!["regular".into()]);
        }
        stage.ctx.set_fonts(fonts);
        // Fonts and sizes settle in the first frames.
        for _ in 0..3 {
            stage.frame();
        }
        Some(stage)
    }

    /// Zooms in by a factor about the middle.
    fn zoom(&mut self, factor: f32) {
        self.pointer = Pos2::new(450.0, 410.0);
        self.frame();
        self.frame_with(vec![egui::Event::Zoom(factor)]);
    }

    /// Moves the pointer and draws; returns the number of triangles.
    fn frame(&mut self) -> usize {
        self.pointer.x = (self.pointer.x + 1.0) % 900.0;
        self.frame_with(vec![egui::Event::PointerMoved(self.pointer)])
    }

    fn frame_with(&mut self, events: Vec<egui::Event>) -> usize {
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(900.0, 820.0))),
            events,
            ..RawInput::default()
        };
        let view = BoardView {
            workpiece: &self.workpiece,
            plan: &self.plan,
            tints: &[],
            sheets: &[],
            lit: &self.lit,
            selected: self.lit.first().copied(),
            chosen: &[],
            mirrored: true,
            dimmed: false,
            units: Units::Mm,
            wood: None,
            show_names: true,
        };
        let state = &mut self.state;
        let mut output = self.ctx.run_ui(input, |ui| {
            board_ui(ui, &view, state);
        });
        output.textures_delta.clear();
        let parts = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        let triangles = |part: &egui::ClippedPrimitive| match &part.primitive {
            Primitive::Mesh(mesh) => mesh.indices.len() / 3,
            Primitive::Callback(_) => 0,
        };
        parts.iter().map(triangles).sum()
    }
}

#[divan::bench(args = HOLES)]
fn whole_board(bencher: Bencher<'_, '_>, holes: u32) {
    let Some(mut stage) = Stage::new(holes) else {
        return;
    };
    bencher.bench_local(|| stage.frame());
}

#[divan::bench(args = HOLES)]
fn near_with_names(bencher: Bencher<'_, '_>, holes: u32) {
    let Some(mut stage) = Stage::new(holes) else {
        return;
    };
    stage.zoom(3.0);
    bencher.bench_local(|| stage.frame());
}

/// The pointer moves over holes and wood: each frame finds the things under it and those that a drag would take along.
#[divan::bench(args = HOLES)]
fn pointer_over_the_board(bencher: Bencher<'_, '_>, holes: u32) {
    let Some(mut stage) = Stage::new(holes) else {
        return;
    };
    stage.pointer = Pos2::new(200.0, 300.0);
    bencher.bench_local(|| {
        stage.pointer.y = 300.0 + (stage.pointer.y + 3.0) % 200.0;
        stage.frame()
    });
}

/// The same picture with the pointer outside of it.
#[divan::bench(args = HOLES)]
fn pointer_elsewhere(bencher: Bencher<'_, '_>, holes: u32) {
    let Some(mut stage) = Stage::new(holes) else {
        return;
    };
    bencher.bench_local(|| stage.frame_with(vec![egui::Event::PointerGone]));
}
