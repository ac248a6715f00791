//! The Tab key goes through stages and dialogs in the order in which one reads them.

use egui::Rect;

use super::*;
use crate::dialogs::Dialog;
use crate::section::Section;
use crate::stage::Stage;

/// Presses Tab once; returns the label and place of the focused control.
fn tab(story: &mut Story) -> Option<(String, Rect)> {
    crate::window::tests::tab(&mut story.harness);
    story.harness.step();
    let root = story.harness.root();
    let focused = root
        .children_recursive()
        .find(egui_kittest::Node::is_focused)?;
    let label = focused.accesskit_node().label().unwrap_or_default();
    Some((label, focused.rect()))
}

/// Whether one place is read after another: below it, or beside it to the right.
fn is_read_after(before: Rect, after: Rect) -> bool {
    let is_same_row =
        before.y_range().contains(after.center().y) || after.y_range().contains(before.center().y);
    if is_same_row {
        after.left() >= before.left()
    } else {
        after.top() >= before.top()
    }
}

/// Every stage with all of its sections unfolded, in a window high enough to show everything.
#[test]
fn tab_goes_through_the_controls_of_each_stage_as_one_reads() {
    for stage in Stage::ALL {
        let mut story = Story::in_world(Fake::new(), None, [1280.0, 4000.0]);
        for section in Section::of_stage(stage) {
            story.harness.state_mut().settings.folds.set(section, true);
        }
        story.harness.state_mut().view.stage = stage;
        story.harness.run();
        let mut before: Option<(String, Rect)> = None;
        let mut walked = 0;
        loop {
            let Some((label, rect)) = tab(&mut story) else {
                panic!("{stage:?}: nothing has the keys after {before:?}, {walked}");
            };
            // The drawing comes after the bar and the controls.
            if label == "Resize panel" || label == "Plan" {
                break;
            }
            if let Some((last, place)) = &before {
                assert!(
                    is_read_after(*place, rect),
                    "{stage:?}: {label} at {rect:?} after {last} at {place:?}"
                );
            }
            before = Some((label, rect));
            walked += 1;
            assert!(walked < 400, "{stage:?}");
        }
        assert!(walked > 20, "{stage:?}: {walked}, {before:?}");
    }
}

/// Goes once around a dialog with Tab and checks that each control comes after the one before it in reading order. A new column may
/// start at its top, and a dialog that focuses a field when it opens wraps around once. Returns the labels in reading order.
fn read_around(story: &mut Story, name: &str) -> Vec<String> {
    let (mut stops, mut seen): (Vec<(String, Rect)>, Vec<egui::Id>) = (Vec::new(), Vec::new());
    loop {
        let Some((label, rect)) = tab(story) else {
            panic!("{name}: nothing has the keys after {:?}", stops.last());
        };
        let focused = story.harness.ctx.memory(egui::Memory::focused);
        if focused.is_some_and(|id| seen.contains(&id)) {
            break;
        }
        seen.extend(focused);
        stops.push((label, rect));
        assert!(stops.len() < 400, "{name}");
    }
    let is_out_of_order = |at: &usize| {
        let (before, (_, rect)) = (&stops[..*at], &stops[*at]);
        let read_to = before.iter().map(|(_, place)| place.right());
        let is_new_column = rect.left() >= read_to.fold(f32::NEG_INFINITY, f32::max);
        !is_new_column && !is_read_after(stops[*at - 1].1, *rect)
    };
    let ends: Vec<usize> = (1..stops.len()).filter(is_out_of_order).collect();
    let breaks: Vec<_> = ends.iter().map(|at| &stops[at - 1..=*at]).collect();
    assert!(breaks.len() <= 1, "{name}: {breaks:?}");
    let first = ends.first().copied().unwrap_or_default();
    stops.rotate_left(first);
    let (first, last) = (stops[0].1, stops[stops.len() - 1].1);
    assert!(is_read_after(first, last), "{name}: {stops:?}");
    stops.into_iter().map(|(label, _)| label).collect()
}

/// The labels that Tab visits in the dialog of a command, in a window high enough to show everything.
fn read_dialog(command: Command) -> Vec<String> {
    let mut story = Story::in_world(Fake::new(), None, [1280.0, 4000.0]);
    story.harness.state_mut().view.asked.push(command);
    story.harness.run_steps(12);
    read_around(&mut story, command.label())
}

fn ends_with(labels: &[String], last: &[&str]) {
    let end = &labels[labels.len().saturating_sub(last.len())..];
    assert_eq!(end, last, "{labels:?}");
}

#[test]
fn tab_goes_through_the_export_dialog_from_the_kinds_to_the_button_that_writes_them() {
    let labels = read_dialog(Command::Export);
    let at = |label: &str| labels.iter().position(|it| it == label);
    for kind in crate::exports::Kind::ALL {
        let show = format!("Show {}", kind.label());
        let choice = at(kind.label());
        // A kind that the board does not plan for has neither, but a link to what is missing.
        assert_eq!(choice.map(|at| at + 1), at(&show), "{show}: {labels:?}");
    }
    ends_with(&labels, &["Folder", "Browse…", "Cancel", "Export"]);
}

#[test]
fn tab_goes_through_every_field_of_the_shop() {
    let labels = read_dialog(Command::Shop);
    let fields = || board::field::of_shop().filter(|field| !field.is_of_entry());
    let mut board = board::Board::default();
    for field in fields() {
        field.begin(&mut board, 0);
    }
    // Fields of another kind of paper are not shown.
    let shown = fields().filter(|field| {
        let is_list = matches!(field.kind, board::Kind::Entries(_));
        !is_list && **field != board::field::UNITS && field.value(&board, 0).is_some()
    });
    let mut count = 0;
    for field in shown {
        let label = field.label(0);
        assert!(labels.contains(&label), "{label}: {labels:?}");
        count += 1;
    }
    assert!(count > 40, "{count}");
    ends_with(&labels, &["Done"]);
}

#[test]
fn tab_goes_through_the_smaller_dialogs_as_one_reads() {
    for (command, last) in [
        (Command::New, "Begin"),
        (Command::Open, "Cancel"),
        (Command::SaveAs, "Save"),
    ] {
        ends_with(&read_dialog(command), &[last]);
    }
    let questions: [fn() -> Dialog; 2] = [
        || Dialog::Unsaved(Command::Quit),
        || Dialog::Changed("/home/maker/a.json".into(), None),
    ];
    for open in questions {
        let mut story = Story::begin();
        story.harness.state_mut().view.dialog = Some(open());
        story.harness.run_steps(12);
        assert!(read_around(&mut story, "a question").len() >= 3);
    }
}
