//! Tests of small windows: every control of every stage and dialog lies between the sides, and Tab reaches it and shows it whole.

use std::collections::BTreeSet;
use std::path::PathBuf;

use board::{
    Base, Board, Filling, Grooves, Machine, Recess, Router, ScrewCircle, SectorJig, Stock,
    StockOutline, Units,
};
use egui::accesskit::{NodeId, Role};
use egui::{Id, Rect, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use kurbo::Size;

use super::tests::{sized, tab};
use super::*;
use crate::dialogs::ExportedDialog;
use crate::exports::{Kind, LeftOut, Source};
use crate::help::{Help, Page, SearchState};
use crate::jobs::{Written, WrittenFile};
use crate::section::Section;
use crate::session::Rescued;
use crate::stage::Stage;
use crate::view::Pane;

/// The smallest window, and what is left of it at 200 %.
const SIZES: [Vec2; 2] = [vec2(900.0, 600.0), vec2(450.0, 300.0)];

fn is_control(role: Role) -> bool {
    matches!(
        role,
        Role::Button
            | Role::CheckBox
            | Role::RadioButton
            | Role::ComboBox
            | Role::SpinButton
            | Role::TextInput
            | Role::MultilineTextInput
            | Role::Link
            | Role::DisclosureTriangle
    )
}

/// Every control in the window: its id, its label, its place, and whether it is enabled.
fn controls(window: &Harness<'static, App>) -> Vec<(NodeId, String, Rect, bool)> {
    let all = window.root().children_recursive();
    let controls = all.filter(|node| is_control(node.accesskit_node().role()));
    controls
        .map(|node| {
            let (there, place) = (node.accesskit_node(), node.rect());
            let label = there.label().unwrap_or_default();
            (there.locate().0, label, place, !there.is_disabled())
        })
        .collect()
}

/// The controls that reach over the left or right edge of the window.
fn cut_off(window: &Harness<'static, App>, width: f32) -> Vec<String> {
    let over = controls(window)
        .into_iter()
        .filter(|(_, _, rect, _)| rect.left() < -0.5 || rect.right() > width + 0.5);
    over.map(|(_, label, rect, _)| format!("{label} at {rect:?}"))
        .collect()
}

/// Whether the focused control is wholly in sight.
fn is_in_sight(window: &Harness<'static, App>, focused: Id, size: Vec2) -> bool {
    let Some(response) = window.ctx.read_response(focused) else {
        return false;
    };
    let screen = Rect::from_min_size(egui::Pos2::ZERO, size);
    let seen = response.interact_rect.intersect(screen).expand(1.0);
    seen.contains_rect(response.rect)
}

/// Goes around once with Tab; returns the controls that it visits, and those that stay out of sight while focused.
fn walk(window: &mut Harness<'static, App>, size: Vec2) -> (BTreeSet<NodeId>, Vec<String>) {
    const MOST: usize = 500;
    let (mut found, mut faults) = (BTreeSet::new(), Vec::new());
    for _ in 0..MOST {
        tab(window);
        // After the last control, the first is focused one frame later.
        if window.ctx.memory(egui::Memory::focused).is_none() {
            window.step();
        }
        let Some(focused) = window.ctx.memory(egui::Memory::focused) else {
            faults.push("nothing has the focus".into());
            break;
        };
        if !found.insert(focused.accesskit_id()) {
            return (found, faults);
        }
        if !is_in_sight(window, focused, size) {
            window.run_steps(5);
        }
        if !is_in_sight(window, focused, size) {
            let all = window.root().children_recursive();
            let here = all.filter(egui_kittest::Node::is_focused);
            let labels: Vec<_> = here.map(|node| node.accesskit_node().label()).collect();
            let place = window.ctx.read_response(focused).map(|it| it.rect);
            faults.push(format!("{labels:?} at {place:?} is out of sight"));
        }
    }
    faults.push(format!("{} stops of the Tab key", found.len()));
    (found, faults)
}

/// Everything wrong with the controls of the window, or of a dialog over the controls `behind` it.
fn faults(
    window: &mut Harness<'static, App>,
    size: Vec2,
    behind: &BTreeSet<NodeId>,
) -> Vec<String> {
    let mut faults = cut_off(window, size.x);
    let (found, unseen) = walk(window, size);
    faults.extend(unseen);
    let missed = controls(window)
        .into_iter()
        .filter(|(id, _, _, is_usable)| *is_usable && !found.contains(id) && !behind.contains(id));
    faults.extend(missed.map(|(_, label, rect, _)| format!("no Tab to {label} at {rect:?}")));
    faults
}

/// A board on which every part is planned that can be.
fn planned(board: &mut Board) {
    (board.grooves, board.recess) = (Some(Grooves::default()), Some(Recess::default()));
    board.machine = Some(Machine::default());
    board.router = Some(Router::default());
    board.sector_jig = Some(SectorJig::default());
    board.filling = Some(Filling::default());
    board.base = Some(Base::default());
    board.screws = vec![ScrewCircle::default()];
    board.stock = Stock {
        outline: StockOutline::Slab {
            length: 1200.0,
            width: 600.0,
            lower: Vec::new(),
            upper: Vec::new(),
        },
        ..Stock::default()
    };
}

fn stages(size: Vec2) {
    let mut window = sized(size);
    let app = window.state_mut();
    app.view.pane = Pane::Controls;
    for section in Section::ALL {
        app.settings.folds.set(*section, true);
    }
    planned(&mut app.session.board);
    for stage in Stage::ALL {
        window.state_mut().view.stage = stage;
        window.run_steps(8);
        let faults = faults(&mut window, size, &BTreeSet::new());
        assert!(faults.is_empty(), "{stage:?} at {size:?}: {faults:#?}");
    }
    window.state_mut().view.pane = Pane::Findings;
    window.run_steps(8);
    let faults = faults(&mut window, size, &BTreeSet::new());
    assert!(faults.is_empty(), "findings at {size:?}: {faults:#?}");
}

#[test]
fn every_control_of_every_stage_is_found_and_seen_in_the_smallest_window() {
    stages(SIZES[0]);
}

#[test]
fn every_control_of_every_stage_is_found_and_seen_at_200_percent() {
    stages(SIZES[1]);
}

/// A file with a long path.
fn file(name: &str) -> PathBuf {
    PathBuf::from("/home/maker/boards-of-a-long-winter/walnut-and-maple").join(name)
}

/// The dialog after an export of many files, with some kinds left out.
fn exported() -> Dialog {
    let mut board = Board::default();
    planned(&mut board);
    let moment = crate::fake::Fake::new().today();
    let source = Source::of(&board, moment).unwrap();
    let paths = Kind::ALL.iter().flat_map(|kind| source.file_names(*kind));
    let files = paths.map(|name| WrittenFile {
        path: file(&name),
        page: std::path::Path::new(&name)
            .extension()
            .is_some_and(|ending| ending == "pdf")
            .then_some(Size::new(210.0, 297.0)),
    });
    let left_out = |kind| LeftOut {
        kind,
        why: "the machine needs speeds and feeds".into(),
        lacks: source.lacks(kind),
    };
    let written = Written {
        files: files.collect(),
        left_out: vec![left_out(Kind::Gcode), left_out(Kind::Filling)],
    };
    Dialog::Exported(ExportedDialog::new(written, board.units))
}

/// The dialog that offers the boards of earlier runs, with two broken copies.
fn rescued() -> Dialog {
    let left = |number: u32| Rescued {
        board: Board {
            title: format!("A board with a title that is as long as titles are, number {number}"),
            ..Board::default()
        },
        path: (number > 1).then(|| file("a-long-name-of-a-board.json")),
        on_disk: None,
        when: "2026-11-25 10:30".into(),
    };
    Dialog::Rescued(Box::new(Found {
        boards: (1..=6).map(left).collect(),
        broken: vec![
            file("unsaved-7.json.broken-1"),
            file("unsaved-8.json.broken-1"),
        ],
    }))
}

/// Opens a dialog.
type Opener = Box<dyn Fn(&mut App, &egui::Context)>;

/// Every dialog, with the function that opens it.
fn dialogs() -> Vec<(&'static str, Opener)> {
    let by = |command: Command| -> Opener { Box::new(move |app, ctx| app.apply(ctx, command)) };
    let with = |dialog: fn() -> Dialog| -> Opener {
        Box::new(move |app, _| app.view.dialog = Some(dialog()))
    };
    vec![
        ("New", by(Command::New)),
        ("Open", by(Command::Open)),
        ("Save as", by(Command::SaveAs)),
        ("Export", by(Command::Export)),
        ("Exported", with(exported)),
        ("Rescued", with(rescued)),
        ("Shop", by(Command::Shop)),
        ("Ruler", by(Command::Ruler)),
        ("Safety", by(Command::Safety)),
        (
            "Search",
            with(|| {
                let mut search = SearchState::default();
                search.text = "hole".into();
                Dialog::Search(search, Units::Mm)
            }),
        ),
        ("Unsaved", with(|| Dialog::Unsaved(Command::Quit))),
        (
            "Changed",
            with(|| Dialog::Changed(file("board.json"), None)),
        ),
    ]
}

fn in_dialogs(size: Vec2) {
    for (name, open) in dialogs() {
        let mut window = sized(size);
        let behind = controls(&window).into_iter().map(|(id, ..)| id).collect();
        let ctx = window.ctx.clone();
        open(window.state_mut(), &ctx);
        window.run_steps(12);
        let faults = faults(&mut window, size, &behind);
        assert!(faults.is_empty(), "{name} at {size:?}: {faults:#?}");
    }
}

#[test]
fn every_control_of_every_dialog_is_found_and_seen_in_the_smallest_window() {
    in_dialogs(SIZES[0]);
}

#[test]
fn every_control_of_every_dialog_is_found_and_seen_at_200_percent() {
    in_dialogs(SIZES[1]);
}

#[test]
fn help_lies_between_the_sides_of_small_windows() {
    for size in SIZES {
        let mut window = sized(size);
        for page in [Page::Guide, Page::Keys, Page::Words] {
            window.state_mut().view.help = Help::default();
            window.state_mut().view.help.open(page);
            window.run_steps(12);
            let over = cut_off(&window, size.x);
            assert!(over.is_empty(), "{page:?} at {size:?}: {over:#?}");
        }
    }
}
