//! The maker's work on the canvas, and the look of it.

use std::collections::BTreeMap;
use std::sync::Arc;

use board::{Board, Center, Grooves, HoleId, Pocket, Rings, Units};
use drawing::End;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Pos2, Theme, vec2};
use egui_kittest::SnapshotResults;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use geometry::{Pattern, PocketShape, Point};
use testkit::assert_near;
use workshop::Workpiece;

use super::measuring::Measuring;
use super::{BoardView, CanvasOutput, CanvasState, Choice, SheetOutline, board_ui, readout, whole};
use crate::camera::{Camera, Zoom};
use crate::hand::Hand;

/// A canvas with the board it shows.
struct Bench {
    workpiece: Arc<Workpiece>,
    plan: Vec<drawing::Item>,
    tints: Vec<drawing::Tinted>,
    sheets: Vec<SheetOutline>,
    lit: Vec<HoleId>,
    choice: Choice,
    dimmed: bool,
    units: Units,
    state: CanvasState,
    output: CanvasOutput,
    /// Every click so far, in order.
    clicks: Vec<Option<HoleId>>,
}

impl Bench {
    fn with(board: Board) -> Self {
        let layout = board::layout(&board).unwrap();
        let workpiece = Arc::new(Workpiece::laid(board, layout, None));
        Self {
            plan: drawing::plan(&workpiece),
            tints: drawing::tints(&workpiece),
            workpiece,
            sheets: Vec::new(),
            lit: Vec::new(),
            choice: Choice::default(),
            dimmed: false,
            units: Units::Mm,
            state: CanvasState::default(),
            output: CanvasOutput::default(),
            clicks: Vec::new(),
        }
    }

    /// The same canvas with another board.
    fn take(&mut self, board: &Board) {
        self.workpiece = Arc::new(Workpiece::of(board).unwrap());
        self.plan = drawing::plan(&self.workpiece);
        self.tints = drawing::tints(&self.workpiece);
    }

    fn board(&self) -> Board {
        self.workpiece.board().clone()
    }

    fn view(&self) -> BoardView<'_> {
        BoardView {
            workpiece: &self.workpiece,
            plan: &self.plan,
            tints: &self.tints,
            sheets: &self.sheets,
            lit: &self.lit,
            selected: self.choice.selected,
            chosen: &self.choice.chosen,
            mirrored: true,
            dimmed: self.dimmed,
            units: self.units,
            wood: None,
            show_names: true,
        }
    }

    fn ui(&mut self, ui: &mut egui::Ui) {
        let mut state = core::mem::take(&mut self.state);
        let ground = egui::Frame::new().fill(ui.visuals().panel_fill);
        self.output = ground
            .show(ui, |ui| board_ui(ui, &self.view(), &mut state))
            .inner;
        self.state = state;
        if let Some(choice) = self.output.choice.clone() {
            self.clicks.push(choice.selected);
            self.choice = choice;
        }
        if let Some(board) = self.output.changed.take() {
            self.take(&board);
        }
    }
}

impl Hand<Bench> {
    fn at(bench: Bench) -> Self {
        Self::of(Theme::Light, [720.0, 660.0], bench)
    }

    fn of(theme: Theme, size: [f32; 2], bench: Bench) -> Self {
        Self::under(theme, size, bench, "Board plan", Bench::ui)
    }

    fn change(&mut self, change: impl FnOnce(&mut Bench)) {
        change(self.harness.state_mut());
        self.harness.run_steps(2);
    }

    /// The screen point of a board point.
    fn place(&self, point: Point) -> Pos2 {
        let bench = self.bench();
        Camera::new(bench.state.zoom, self.frame(), whole(&bench.view())).screen(point)
    }

    fn hole(&self, name: &str) -> Pos2 {
        self.place(
            self.bench()
                .workpiece
                .layout()
                .hole(id(name))
                .unwrap()
                .center,
        )
    }

    /// The output of the canvas with the pointer at a place.
    fn output(&mut self, at: Pos2) -> CanvasOutput {
        self.hover(at);
        self.bench().output.clone()
    }
}

/// The board that one starts from, of another diameter.
fn wide(diameter: f64) -> Board {
    let mut board = Board::default();
    board.blank.diameter = diameter;
    board
}

fn id(name: &str) -> HoleId {
    name.parse().unwrap()
}

#[test]
fn the_pointer_over_a_hole_gives_its_name_and_center() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    for name in ["T3-7", "H1-2", "S6-3", "C"] {
        let at = hand.hole(name);
        let output = hand.output(at);
        let center = hand
            .bench()
            .workpiece
            .layout()
            .hole(id(name))
            .unwrap()
            .center;
        let hover = output.hover.unwrap();
        assert_eq!(hover.id, id(name));
        assert_near!(hover.center, center, 1e-9);
        assert_near!(output.pointer.unwrap(), center, 0.01);
        assert_eq!(output.choice, None);
    }
    let said = readout(&hand.bench().output, Units::Mm);
    assert!(said.starts_with("C   x 0 mm   y 0 mm"), "{said}");
}

#[test]
fn plain_wood_gives_its_place_alone() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let at = hand.place(Point::new(40.0, -20.0));
    let output = hand.output(at);
    assert_eq!(output.hover, None);
    assert_near!(output.pointer.unwrap(), Point::new(40.0, -20.0), 0.01);
}

#[test]
fn a_click_selects_a_hole_and_a_click_on_wood_none() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let hole = hand.hole("H4-3");
    hand.click(hole);
    let wood = hand.place(Point::new(40.0, -20.0));
    hand.click(wood);
    assert_eq!(hand.bench().clicks, [Some(id("H4-3")), None]);
}

#[test]
fn a_dimmed_board_cannot_be_pointed_at() {
    let mut bench = Bench::with(Board::default());
    bench.dimmed = true;
    let mut hand = Hand::at(bench);
    let hole = hand.hole("H4-3");
    assert_eq!(hand.output(hole).hover, None);
    hand.click(hole);
    assert!(hand.bench().clicks.is_empty());
}

#[test]
fn the_wheel_zooms_about_the_pointer() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let at = hand.hole("T5-3");
    let before = hand.output(at).pointer.unwrap();
    for lines in [3.0, 6.0, -4.0] {
        let scale = hand.hole("T1-1").distance(hand.hole("T4-1"));
        hand.wheel(lines);
        let larger = hand.hole("T1-1").distance(hand.hole("T4-1")) > 1.05 * scale;
        assert_eq!(larger, lines > 0.0);
        assert_near!(hand.bench().output.pointer.unwrap(), before, 0.01);
    }
}

#[test]
fn a_drag_takes_the_board_along_to_the_point() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let from = hand.place(Point::new(40.0, -20.0));
    let to = from + vec2(70.0, 45.0);
    hand.take(from, to);
    assert_near!(
        hand.bench().output.pointer.unwrap(),
        Point::new(40.0, -20.0),
        0.01
    );
    hand.drop(to);
    assert!(hand.bench().clicks.is_empty());
}

#[test]
fn a_fitted_board_stays_fitted_and_a_moved_one_stays_put() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let rim = |hand: &Hand<Bench>| hand.place(Point::new(0.0, hand.bench().board().blank.radius()));
    let fitted = rim(&hand);
    hand.change(|bench| bench.take(&wide(700.0)));
    assert!(rim(&hand).distance(fitted) < 0.01);
    let middle = hand.frame().center();
    hand.hover(middle);
    hand.wheel(4.0);
    let pin = hand.place(Point::new(100.0, 0.0));
    hand.change(|bench| bench.take(&wide(560.0)));
    assert_eq!(hand.place(Point::new(100.0, 0.0)), pin);
    hand.change(|bench| bench.state.fit());
    assert!(rim(&hand).distance(fitted) < 0.01);
}

#[test]
fn a_double_click_on_wood_fits() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let fitted = hand.hole("T1-1");
    let wood = hand.place(Point::new(40.0, -20.0));
    hand.hover(wood);
    hand.wheel(4.0);
    assert!(hand.hole("T1-1").distance(fitted) > 5.0);
    hand.double_click(wood);
    assert!(hand.hole("T1-1").distance(fitted) < 0.01);
}

#[test]
fn the_keys_move_zoom_fit_and_step_from_hole_to_hole() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    hand.focus();
    let fitted = hand.hole("T1-1");
    hand.key(Key::ArrowRight);
    assert!(hand.hole("T1-1").x < fitted.x - 10.0);
    hand.key(Key::Plus);
    hand.key(Key::Num0);
    assert!(hand.hole("T1-1").distance(fitted) < 0.01);
    for _ in 0..3 {
        hand.key(Key::CloseBracket);
    }
    hand.key(Key::OpenBracket);
    assert_eq!(hand.bench().choice.selected, Some(id("T1-2")));
    let said = readout(&hand.bench().output, Units::Mm);
    assert!(said.starts_with("T1-02"), "{said}");
    // The focus is on the plan, and its active hole has it.
    let hole = hand.harness.get_by_label("T1-02, track space, player 1");
    assert!(hole.is_focused());
}

fn measured(hand: &Hand<Bench>) -> Option<(String, f64)> {
    let measure = hand.bench().output.measure.as_ref()?;
    let ends = format!("{} to {}", measure.from, measure.to);
    Some((ends, measure.span.straight))
}

#[test]
fn a_measure_is_taken_by_a_drag_or_by_two_clicks_and_stays_when_the_tool_is_put_down() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    hand.change(|bench| bench.state.set_measuring(true));
    let (from, to) = (hand.hole("T1-3"), hand.hole("T1-4"));
    hand.drag(from, to);
    let (ends, straight) = measured(&hand).unwrap();
    assert_eq!(ends, "T1-03 to T1-04");
    assert_near!(straight, 19.0, 1e-9);
    let rim = hand.place(Point::new(0.0, 320.0));
    hand.click(to);
    assert_eq!(measured(&hand), None);
    hand.click(rim);
    let (ends, straight) = measured(&hand).unwrap();
    assert_eq!(ends, "T1-04 to edge of the board");
    let center = hand
        .bench()
        .workpiece
        .layout()
        .hole(id("T1-4"))
        .unwrap()
        .center;
    assert_near!(straight, 320.0 - center.to_vec2().length(), 1e-9);
    assert_eq!(hand.bench().clicks, []);
    hand.key(Key::Escape);
    assert!(!hand.bench().state.measuring());
    assert!(measured(&hand).is_some());
    hand.key(Key::Escape);
    assert_eq!(measured(&hand), None);
}

#[test]
fn a_measure_that_is_begun_is_given_up_before_the_tool_is() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    hand.change(|bench| bench.state.set_measuring(true));
    let (from, to) = (hand.hole("T1-3"), hand.hole("H4-1"));
    hand.click(from);
    hand.hover(to);
    assert_eq!(measured(&hand).unwrap().0, "T1-03 to H4-1");
    hand.key(Key::Escape);
    assert!(hand.bench().state.measuring());
    assert_eq!(measured(&hand), None);
    // A drag that Escape ends is over, and does not move the board either.
    hand.take(from, to);
    hand.key(Key::Escape);
    hand.drop(to);
    assert_eq!(measured(&hand), None);
    assert_eq!(hand.hole("T1-3"), from);
}

#[test]
fn the_keys_measure_from_the_chosen_hole_to_another() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    hand.change(|bench| bench.state.set_measuring(true));
    hand.focus();
    for _ in 0..2 {
        hand.key(Key::CloseBracket);
        hand.key(Key::Enter);
    }
    assert_eq!(measured(&hand).unwrap().0, "T1-01 to T1-02");
}

#[test]
fn a_drag_with_shift_measures_and_leaves_the_view_alone() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    hand.harness
        .event(Event::ModifiersChanged(Modifiers::SHIFT));
    let (from, to) = (hand.hole("H2-1"), hand.hole("H5-1"));
    hand.take(from, to);
    assert!(measured(&hand).is_some());
    assert_eq!(hand.hole("H2-1"), from);
}

#[test]
fn lit_and_selected_holes_change_the_picture_where_they_are() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let plain = hand.harness.render().unwrap();
    hand.change(|bench| {
        bench.lit = vec![id("T2-5")];
        bench.choice = Choice::one(Some(id("H5-2")));
    });
    let marked = hand.harness.render().unwrap();
    let places = BTreeMap::from(["T2-5", "H5-2"].map(|name| (name, hand.hole(name))));
    let mut found = BTreeMap::new();
    for (x, y, pixel) in marked.enumerate_pixels() {
        if pixel != plain.get_pixel(x, y) {
            let at = Pos2::new(x as f32, y as f32);
            let near = places.iter().find(|(_, place)| place.distance(at) < 30.0);
            let (name, _) = near.unwrap_or_else(|| panic!("a change at {at}"));
            *found.entry(*name).or_insert(0) += 1;
        }
    }
    assert!(
        places.keys().all(|name| found.get(name) > Some(&100)),
        "{found:?}"
    );
}

#[test]
fn screen_readers_hear_what_the_board_is() {
    let mut bench = Bench::with(Board::default());
    bench.choice = Choice::one(Some(id("T3-7")));
    let hand = Hand::at(bench);
    let node = hand
        .harness
        .get_by_role_and_label(Role::ListBox, "Board plan");
    let node = node.accesskit_node();
    assert_eq!(node.value().as_deref(), Some("T3-07"));
    assert_eq!(node.data().description(), Some("145 holes, 6 players"));
}

#[test]
fn every_hole_has_a_name_a_role_and_a_place_for_screen_readers() {
    let mut hand = Hand::at(Bench::with(Board::default()));
    let holes = hand.harness.query_all_by_role(Role::ListBoxOption);
    assert_eq!(holes.count(), 145);
    let label = "T3-07, track space, player 3";
    let hole = hand
        .harness
        .get_by_role_and_label(Role::ListBoxOption, label);
    let place = hand.hole("T3-7");
    assert!(hole.rect().center().distance(place) < 0.5);
    let node = hole.accesskit_node();
    let said = node.data().description().unwrap().to_owned();
    assert!(
        said.starts_with("radius 29") && said.ends_with("bore 12 mm wide, 5 mm deep"),
        "{said}"
    );
    assert_eq!(
        node.parent()
            .and_then(|list| list.parent())
            .and_then(|plan| plan.label())
            .as_deref(),
        Some("Board plan")
    );
    // A screen reader's own click chooses it, and the keys go on from there.
    hand.harness.get_by_label(label).click_accesskit();
    hand.harness.run();
    assert_eq!(hand.bench().choice.selected, Some(id("T3-7")));
    hand.key(Key::CloseBracket);
    let next = hand.harness.get_by_label("T3-08, track space, player 3");
    assert_eq!(next.accesskit_node().is_selected(), Some(true));
}

/// A ring with marks of every kind.
fn marked_ring() -> Bench {
    let mut bench = Bench::with(Board::default());
    bench.lit = ["T2-5", "T2-6", "H3-4"].map(id).to_vec();
    bench.choice = Choice::one(Some(id("S5-2")));
    bench.state.measuring = Measuring::taken(End::Center(id("T3-12")), End::Edge(id("H4-4")));
    bench
}

fn four_arms() -> Bench {
    Bench::with(Board {
        players: 4,
        pattern: Pattern::Arms { across: 3 },
        spaces: 16,
        pitch: 24.0,
        pocket: Pocket {
            shape: PocketShape::Block,
            ..Board::default().pocket
        },
        ..Board::default()
    })
}

fn eight_lobes() -> Bench {
    let mut board = Board {
        players: 8,
        pattern: Pattern::Lobes { depth: 0.12 },
        center: Center::Pivot {
            diameter: 6.0,
            depth: 10.0,
        },
        ..Board::default()
    };
    board.blank.diameter = 720.0;
    Bench::with(board)
}

/// Eight lobes under six sheets.
fn sheets() -> Bench {
    let mut bench = eight_lobes();
    for (row, letter) in ["A", "B"].iter().enumerate() {
        for column in 0..3_u8 {
            let (x, y) = (
                -375.0 + 245.0 * f64::from(column),
                -5.0 - 365.0 * row as f64,
            );
            bench.sheets.push(SheetOutline {
                window: kurbo::Rect::new(x, y, x + 255.0, y + 375.0),
                label: format!("{letter}{}", column + 1),
            });
        }
    }
    bench
}

/// Every kind of groove, the pockets along the board's circle.
fn grooved() -> Bench {
    let rings = Rings {
        start: true,
        ..Rings::default()
    };
    let wanted = Grooves {
        width: 2.5,
        stop: 1.0,
        around_home: Some(2.0),
        around_start: Some(4.5),
        rings: Some(rings),
        sectors_from: Some(40.0),
        rim: Some(5.0),
        ..Grooves::default()
    };
    let mut board = Board {
        grooves: Some(wanted),
        spaces: 13,
        ..Board::default()
    };
    board.pocket.shape = PocketShape::Arc;
    Bench::with(board)
}

fn near(bench: Bench, middle: Point, scale: f64) -> Bench {
    let zoom = Zoom::Free(middle, scale);
    let state = CanvasState {
        zoom,
        ..bench.state
    };
    Bench { state, ..bench }
}

#[test]
fn the_board_looks_as_it_did() {
    let mut pictures = SnapshotResults::new();
    let mut look = |name: &str, theme: Theme, bench: Bench, pointed: Option<&str>| {
        let mut hand = Hand::of(theme, [520.0, 480.0], bench);
        if let Some(name) = pointed {
            let at = hand.hole(name);
            hand.focus();
            hand.hover(at);
        }
        pictures.add(hand.harness.try_snapshot(name));
    };
    let close = near(marked_ring(), Point::new(40.0, 190.0), 3.2);
    look("canvas-ring", Theme::Light, marked_ring(), None);
    look("canvas-near-dark", Theme::Dark, close, Some("H1-3"));
    look("canvas-arms-dark", Theme::Dark, four_arms(), None);
    look("canvas-sheets", Theme::Light, sheets(), None);
    look("canvas-grooves", Theme::Light, grooved(), None);
    let close = near(grooved(), Point::new(40.0, 190.0), 3.2);
    look("canvas-grooves-dark", Theme::Dark, close, None);
}
