//! The maker's work on the blank, and the look of it.

use board::{Board, Build, FlawKind, FlawShape, StockFlaw, StockOutline};
use egui::accesskit::Role;
use egui::{Key, Pos2, Theme};
use egui_kittest::SnapshotResults;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use geometry::Point;
use testkit::assert_near;
use workshop::Workpiece;

use super::pieces::Pieces;
use super::{BlankSeen, BlankViewState, blank_view_ui, whole};
use crate::hand::Hand;
use crate::theme::Tokens;

/// A blank on a bench of its own.
struct Bench {
    board: Board,
    workpiece: Workpiece,
    plan: Vec<drawing::Item>,
    is_old: bool,
    state: BlankViewState,
    readout: String,
}

impl Bench {
    fn with(board: &Board) -> Self {
        let workpiece = Workpiece::of(board).unwrap();
        workpiece.work_out(&|| false).unwrap();
        Self::of(workpiece)
    }

    /// A blank with only the results that are worked out at once.
    fn of(workpiece: Workpiece) -> Self {
        Self {
            plan: drawing::plan_without_names(&workpiece),
            board: workpiece.board().clone(),
            workpiece,
            is_old: false,
            state: BlankViewState::default(),
            readout: String::new(),
        }
    }

    fn seen(&self) -> BlankSeen<'_> {
        BlankSeen {
            wood: None,
            workpiece: &self.workpiece,
            plan: &self.plan,
            is_old: self.is_old,
        }
    }

    /// As in the window: results that follow from the document are worked out after it was drawn.
    fn ui(&mut self, ui: &mut egui::Ui) {
        let mut board = self.board.clone();
        let mut state = core::mem::take(&mut self.state);
        let ground = egui::Frame::new().fill(Tokens::of(ui).bench);
        let shown = ground.show(ui, |ui| {
            blank_view_ui(ui, &mut board, &self.seen(), &mut state)
        });
        self.readout = shown.inner;
        self.state = state;
        if board != self.board {
            let next = self.workpiece.next(&board, None).unwrap();
            self.plan = drawing::plan_without_names(&next);
            self.workpiece = next;
            self.board = board;
        }
    }

    fn best(&self) -> Point {
        let plan = self.workpiece.stock().unwrap();
        plan.best.as_ref().unwrap().circle.center
    }

    fn knot(&self) -> [f64; 2] {
        match self.board.stock.flaws[0].shape {
            FlawShape::Round { x, y, .. } => [x, y],
            FlawShape::Area { .. } => panic!("not round"),
        }
    }
}

impl Hand<Bench> {
    fn at(board: &Board) -> Self {
        Self::of(Theme::Light, [640.0, 420.0], Bench::with(board))
    }

    fn of(theme: Theme, size: [f32; 2], bench: Bench) -> Self {
        Self::under(theme, size, bench, "Blank plan", Bench::ui)
    }

    /// The screen point of a place on the blank.
    fn place(&self, x: f64, y: f64) -> Pos2 {
        let bench = self.bench();
        let pieces = Pieces::of(&bench.board, &bench.seen());
        let all = whole(&bench.board, &bench.state.drawn, pieces);
        let camera = bench.state.camera(self.frame(), all);
        camera.screen(Point::new(x, y))
    }
}

fn flaw(kind: FlawKind, shape: FlawShape) -> StockFlaw {
    StockFlaw { kind, shape }
}

/// A small board on a slab with live edges, a knot, a crack and sapwood.
fn board() -> Board {
    let mut board = Board {
        spaces: 13,
        ..Board::default()
    };
    board.blank.diameter = 530.0;
    board.stock.outline = StockOutline::Slab {
        length: 1300.0,
        width: 640.0,
        lower: vec![0.0, 18.0, 25.0, 12.0, 30.0],
        upper: vec![10.0, 0.0, 35.0, 5.0],
    };
    let (crack, sapwood) = (
        vec![
            [1300.0, 300.0],
            [1130.0, 310.0],
            [1080.0, 330.0],
            [1140.0, 325.0],
            [1300.0, 330.0],
        ],
        vec![
            [60.0, 30.0],
            [420.0, 40.0],
            [380.0, 75.0],
            [200.0, 110.0],
            [80.0, 80.0],
        ],
    );
    board.stock.flaws = vec![
        flaw(
            FlawKind::Knot,
            FlawShape::Round {
                x: 900.0,
                y: 420.0,
                diameter: 70.0,
            },
        ),
        flaw(FlawKind::Crack, FlawShape::Area { corners: crack }),
        flaw(FlawKind::Sapwood, FlawShape::Area { corners: sapwood }),
    ];
    board
}

/// Any four corners and nothing on them.
fn on_corners(corners: &[[f64; 2]]) -> Board {
    let mut board = board();
    board.stock.outline = StockOutline::Corners {
        corners: corners.to_vec(),
    };
    board.stock.flaws.clear();
    board
}

const KITE: [[f64; 2]; 4] = [[0.0, 300.0], [450.0, 0.0], [1200.0, 300.0], [450.0, 650.0]];

#[test]
fn escape_takes_a_drag_back_and_the_rest_of_it_does_nothing() {
    let mut hand = Hand::at(&board());
    let (from, to) = (hand.place(900.0, 420.0), hand.place(700.0, 300.0));
    hand.take(from, to);
    assert!(hand.bench().knot() != [900.0, 420.0]);
    hand.key(Key::Escape);
    assert_eq!(hand.bench().knot(), [900.0, 420.0]);
    hand.hover(hand.place(600.0, 200.0));
    hand.drop(to);
    assert_eq!(hand.bench().knot(), [900.0, 420.0]);
}

#[test]
fn the_keys_choose_the_knot_and_move_it() {
    let mut hand = Hand::at(&board());
    hand.focus();
    hand.key(Key::CloseBracket);
    assert!(hand.bench().readout.starts_with("center pin"));
    while !hand.bench().readout.starts_with("knot 1") {
        hand.key(Key::CloseBracket);
    }
    hand.key(Key::ArrowRight);
    hand.key(Key::ArrowDown);
    assert_eq!(hand.bench().knot(), [900.5, 419.5]);
    assert!(
        hand.bench().readout.contains("900.5 mm"),
        "{}",
        hand.bench().readout
    );
    hand.key(Key::Escape);
    let before = hand.place(0.0, 0.0);
    hand.key(Key::ArrowRight);
    assert_eq!(hand.bench().knot(), [900.5, 419.5]);
    assert!(hand.place(0.0, 0.0).x < before.x);
}

#[test]
fn a_knot_is_dragged_across_the_blank_and_the_best_place_follows() {
    let mut hand = Hand::at(&board());
    let before = hand.bench().best();
    let (from, to) = (hand.place(910.0, 425.0), hand.place(410.0, 325.0));
    hand.take(from, to);
    assert_near!(hand.bench().knot()[0], 400.0, 0.3);
    assert_near!(hand.bench().knot()[1], 320.0, 0.3);
    let during = hand.bench().best();
    assert!(before.distance(during) > 100.0, "{before:?} {during:?}");
    assert!(hand.bench().readout.starts_with("knot 1   x "));
    hand.drop(to);
    assert_eq!(hand.bench().best(), during);
    let tenths = hand.bench().knot()[0] * 10.0;
    assert_near!(tenths, tenths.round(), 1e-9);
    assert_eq!(hand.bench().board.stock.place, None);
}

#[test]
fn the_pin_snaps_to_guides_unless_shift_is_held() {
    let mut hand = Hand::at(&board());
    let best = hand.bench().best();
    let from = hand.place(best.x, best.y);
    // Away from the middle of the slab by less than a guide reaches.
    let to = hand.place(best.x - 230.0, best.y) + egui::vec2(0.0, 3.0);
    hand.take(from, to);
    let [_, y] = hand.bench().board.stock.place.unwrap();
    assert_near!(y, 320.0, 1e-9);
    hand.drop(to);
    let [x, y] = hand.bench().board.stock.place.unwrap();
    let from = hand.place(x, y);
    hand.hold(egui::Modifiers::SHIFT);
    hand.drag(from, from + egui::vec2(-40.0, 3.0));
    let [_, after] = hand.bench().board.stock.place.unwrap();
    assert!((after - y).abs() > 1.0, "{after} {y}");
}

#[test]
fn the_pin_is_dragged_to_a_place_and_goes_back_to_the_best() {
    let mut hand = Hand::at(&board());
    let best = hand.bench().best();
    let (from, to) = (hand.place(best.x, best.y), hand.place(500.0, 300.0));
    hand.drag(from, to);
    let [x, y] = hand.bench().board.stock.place.unwrap();
    assert_near!(x, 500.0, 0.3);
    assert_near!(y, 300.0, 0.3);
    hand.press("Pin to the best place");
    assert_eq!(hand.bench().board.stock.place, None);
    let from = hand.place(best.x, best.y);
    hand.drag(from, to);
    let at = hand.place(500.0, 300.0);
    hand.double_click(at);
    assert_eq!(hand.bench().board.stock.place, None);
    assert!(!hand.says("Pin to the best place"));
}

#[test]
fn a_pin_dragged_off_the_wood_stops_the_board_in_words() {
    let mut hand = Hand::at(&board());
    assert!(!hand.says("▲"));
    let best = hand.bench().best();
    let (from, to) = (hand.place(best.x, best.y), hand.place(200.0, 100.0));
    hand.drag(from, to);
    assert!(hand.says("does not fit where it lies on the blank"));
}

#[test]
fn corners_are_dragged_and_the_view_stays_while_they_are() {
    let mut hand = Hand::at(&on_corners(&KITE));
    let (from, to) = (hand.place(1200.0, 300.0), hand.place(1320.0, 350.0));
    hand.take(from, to);
    assert!(hand.place(1320.0, 350.0).distance(to) < 0.5);
    hand.drop(to);
    let StockOutline::Corners { corners } = &hand.bench().board.stock.outline else {
        panic!("another outline");
    };
    assert_near!(corners[2][0], 1320.0, 0.4);
    assert_near!(corners[2][1], 350.0, 0.4);
    assert_eq!(
        [corners[0], corners[1], corners[3]],
        [KITE[0], KITE[1], KITE[3]]
    );
    // It is all in view again.
    assert!(hand.place(1320.0, 350.0).x < to.x - 5.0);
}

#[test]
fn a_corner_of_a_crack_is_dragged_alone_and_a_crack_as_a_whole() {
    let mut hand = Hand::at(&board());
    let corners = |hand: &Hand<Bench>| match &hand.bench().board.stock.flaws[1].shape {
        FlawShape::Area { corners } => corners.clone(),
        FlawShape::Round { .. } => panic!("round"),
    };
    let before = corners(&hand);
    let (from, to) = (hand.place(1080.0, 330.0), hand.place(1000.0, 250.0));
    hand.drag(from, to);
    let after = corners(&hand);
    assert_near!(after[2][1], 250.0, 0.4);
    assert_eq!((after[1], after[3]), (before[1], before[3]));
    let (from, to) = (hand.place(1220.0, 316.0), hand.place(1220.0, 416.0));
    hand.drag(from, to);
    for (moved, at) in corners(&hand).iter().zip(&after) {
        assert_near!(moved[1] - at[1], 100.0, 0.4);
        assert_near!(moved[0] - at[0], 0.0, 0.1);
    }
}

#[test]
fn an_unknown_blank_asks_for_its_size_and_shows_nothing_else() {
    let hand = Hand::at(&Board::default());
    assert!(hand.says(
        "Enter the blank's length and width, or its corners, and see where the board goes on it."
    ));
    assert!(hand.harness.query_by_label("Blank plan").is_none());
    assert!(hand.bench().readout.contains("shows the board again"));
}

#[test]
fn corners_that_cross_are_told_and_can_be_dragged_apart() {
    let crossed = [KITE[0], KITE[1], KITE[3], KITE[2]];
    let mut hand = Hand::at(&on_corners(&crossed));
    assert!(hand.says("edge 2 (from corner 2) meets edge 4"));
    let (from, to) = (hand.place(450.0, 650.0), hand.place(1150.0, 100.0));
    hand.drag(from, to);
    assert!(!hand.says("meets"));
    assert!(hand.bench().best().x > 0.0);
}

#[test]
fn a_blank_of_many_corners_shows_while_its_best_place_is_looked_for() {
    let corner = |at: u32| {
        let turn = f64::from(at) / 400.0 * core::f64::consts::TAU;
        [500.0 * libm::cos(turn), 400.0 * libm::sin(turn)]
    };
    let corners: Vec<[f64; 2]> = (0..400).map(corner).collect();
    let bench = Bench::of(Workpiece::of(&on_corners(&corners)).unwrap());
    let hand = Hand::of(Theme::Light, [640.0, 420.0], bench);
    assert!(hand.says("Looking for the best place…"));
    hand.harness
        .get_by_role_and_label(Role::Figure, "Blank plan");
}

#[test]
fn a_board_that_cannot_be_laid_out_leaves_the_blank_alone() {
    let mut bench = Bench::with(&board());
    bench.is_old = true;
    let mut hand = Hand::of(Theme::Light, [640.0, 420.0], bench);
    assert!(hand.says("cannot be laid out"));
    let (from, to) = (hand.place(900.0, 420.0), hand.place(800.0, 400.0));
    hand.drag(from, to);
    assert_near!(hand.bench().knot()[0], 800.0, 0.4);
}

#[test]
fn pieces_for_joining_are_shown_or_told_why_not() {
    let built = |build| {
        let mut board = board();
        board.panel.build = build;
        board
    };
    let pieces = |bench: &Bench| {
        let pieces = Pieces::of(&bench.board, &bench.seen());
        match pieces {
            Pieces::Half(half, most) => (half.radius > 265.0 && most > 530.0, 1),
            Pieces::Strips(places) => (true, places.len()),
            Pieces::None | Pieces::Whole(_) => (false, 0),
        }
    };
    let mut board = built(Build::Halves);
    board.stock.thickness = 50.0;
    let hand = Hand::at(&board);
    assert_eq!(pieces(hand.bench()), (true, 1));
    assert!(!hand.says("▲"));
    let hand = Hand::at(&built(Build::Strips { count: 4 }));
    assert_eq!(pieces(hand.bench()), (true, 4));
    let mut large = built(Build::Strips { count: 2 });
    large.blank.diameter = 1250.0;
    let hand = Hand::at(&large);
    assert!(hand.says("Found no way to saw 2 strips"));
    let waiting = Bench::of(Workpiece::of(&built(Build::Halves)).unwrap());
    let hand = Hand::of(Theme::Light, [640.0, 420.0], waiting);
    assert!(hand.says("Working out the halves…"));
}

#[test]
fn the_wheel_zooms_a_drag_pans_and_a_double_click_fits() {
    let mut hand = Hand::at(&board());
    let fitted = hand.place(0.0, 0.0);
    let at = hand.place(700.0, 560.0);
    hand.hover(at);
    hand.wheel(3.0);
    assert!(hand.place(700.0, 560.0).distance(at) < 0.5);
    assert!(hand.place(0.0, 0.0).x < fitted.x - 20.0);
    let to = at + egui::vec2(30.0, 10.0);
    hand.drag(at, to);
    assert!(hand.place(700.0, 560.0).distance(to) < 0.5);
    assert_eq!(hand.bench().board, board());
    hand.double_click(to);
    assert!(hand.place(0.0, 0.0).distance(fitted) < 0.01);
    hand.focus();
    hand.key(Key::Plus);
    assert!(hand.place(0.0, 0.0).x < fitted.x - 20.0);
    hand.press("Whole blank");
    assert!(hand.place(0.0, 0.0).distance(fitted) < 0.01);
}

#[test]
fn what_is_under_the_pointer_is_said() {
    let mut hand = Hand::at(&board());
    let mut said = |x, y| {
        let at = hand.place(x, y);
        hand.hover(at);
        hand.bench().readout.clone()
    };
    assert!(said(905.0, 415.0).starts_with("knot 1   x 900 mm   y 420 mm"));
    assert!(said(1220.0, 316.0).starts_with("crack 2"));
    assert!(said(420.0, 40.0).starts_with("corner 2 of sapwood 3"));
    assert!(said(800.0, 560.0).ends_with("wood"));
    assert!(said(500.0, -30.0).ends_with("beside the blank"));
}

#[test]
fn screen_readers_hear_of_the_blank_and_of_the_number_fields() {
    let hand = Hand::at(&board());
    let node = hand
        .harness
        .get_by_role_and_label(Role::Figure, "Blank plan");
    let words = node
        .accesskit_node()
        .data()
        .description()
        .unwrap()
        .to_owned();
    assert!(
        words.starts_with("The blank with 3 flaws; center pin at x "),
        "{words}"
    );
    assert!(
        words.ends_with("arrows move it, and so do the number fields under Blank"),
        "{words}"
    );
}

#[test]
fn the_blank_looks_as_it_did() {
    let mut pictures = SnapshotResults::new();
    for (name, theme) in [("blank-light", Theme::Light), ("blank-dark", Theme::Dark)] {
        let mut hand = Hand::of(theme, [560.0, 320.0], Bench::with(&board()));
        let at = hand.place(900.0, 420.0);
        hand.hover(at);
        pictures.add(hand.harness.try_snapshot(name));
    }
}
