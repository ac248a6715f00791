//! Stories of the stages: what is folded and what is not, and what a folded section says.

use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::section::Section;
use crate::stage::Stage;

impl Story {
    /// Whether a section is unfolded, as a screen reader is told.
    fn is_open(&self, section: Section) -> bool {
        let header = self
            .harness
            .get_by_role_and_label(Role::DisclosureTriangle, section.title());
        header.accesskit_node().data().is_expanded() == Some(true)
    }

    /// Unfolds a section of the stage at hand, or folds it.
    pub(super) fn fold(&mut self, title: &str) {
        let header = |story: &Self| {
            let header = story
                .harness
                .get_by_role_and_label(Role::DisclosureTriangle, title);
            header.scroll_to_me();
        };
        header(self);
        self.harness.run();
        self.harness
            .get_by_role_and_label(Role::DisclosureTriangle, title)
            .click();
        self.harness.run();
    }
}

#[test]
fn a_stage_opens_with_its_main_sections_and_keeps_what_the_maker_unfolds() {
    let mut story = Story::begin();
    story.harness.get_by_label("Wood").click();
    story.harness.run();
    for section in Section::of_stage(Stage::Wood) {
        assert_eq!(story.is_open(section), section.opens(), "{section:?}");
    }
    story.fold("Joining");
    story.fold("Species");
    story.press("Drill");
    story.press("Wood");
    assert!(story.is_open(Section::Joining) && !story.is_open(Section::Species));
    let kept = serde_json::to_string(&story.app().settings).unwrap();
    let read: Settings = serde_json::from_str(&kept).unwrap();
    assert!(read.folds.is_open(Section::Joining) && !read.folds.is_open(Section::Species));
}

#[test]
fn a_folded_section_says_what_is_in_it_and_what_is_wrong() {
    let mut story = Story::begin();
    story.fold("Board");
    let told = |story: &Story, title: &str| {
        let header = story
            .harness
            .get_by_role_and_label(Role::DisclosureTriangle, title);
        header.accesskit_node().description().unwrap_or_default()
    };
    assert_eq!(told(&story, "Home and start"), "5 home, 3 start");
    assert_eq!(told(&story, "Board"), "500 mm, 20 mm thick");
    assert_eq!(told(&story, "Pieces"), "1 caution");
    story.type_into("Hole spacing", "24");
    assert!(
        told(&story, "Board").ends_with("1 stop"),
        "{}",
        told(&story, "Board")
    );
    story.press("Finish");
    assert!(!told(&story, "Finish coats").contains("stop"));
}

#[test]
fn a_finding_leads_to_the_section_in_which_it_is_mended() {
    let mut story = Story::begin();
    story.fold("Pieces");
    story.press("Wood");
    story.press("Go to Pieces (caution: child safety)");
    assert_eq!(story.app().view.stage, Stage::LayOut);
    assert!(story.is_open(Section::Pieces));
    assert!(story.sees("Youngest player"));
}

#[test]
fn holes_are_found_by_words_and_chosen_together() {
    let mut story = Story::begin();
    story.fold("Edit holes");
    story.write_into("Find holes", "home player 2");
    story.reach("Choose 5 holes");
    assert_eq!(story.app().view.chosen().len(), 5);
    assert!(story.sees("5 holes chosen"));
    story.write_into("Find holes", "t3-1");
    assert!(story.sees("Choose 4 holes"));
}

/// Presses Tab once; what has the keys then, with its place.
fn tab(story: &mut Story) -> Option<(String, egui::Rect)> {
    story.harness.key_press(Key::Tab);
    story.harness.run_steps(2);
    let root = story.harness.root();
    let focused = root.children_recursive().find(|node| node.is_focused())?;
    let label = focused.accesskit_node().label().unwrap_or_default();
    Some((label, focused.rect()))
}

/// Whether one place is read after another: below it, or beside it to the right.
fn is_read_after(before: egui::Rect, after: egui::Rect) -> bool {
    let is_same_row =
        before.y_range().contains(after.center().y) || after.y_range().contains(before.center().y);
    if is_same_row {
        after.left() >= before.left()
    } else {
        after.top() >= before.top()
    }
}

/// Every stage with all of its sections unfolded, in a window so high that nothing is out of sight.
#[test]
fn tab_goes_through_the_controls_of_each_stage_as_one_reads() {
    for stage in Stage::ALL {
        let mut story = Story::in_world(Fake::new(), None, [1280.0, 4000.0]);
        for section in Section::of_stage(stage) {
            story.harness.state_mut().settings.folds.set(section, true);
        }
        story.harness.state_mut().view.stage = stage;
        story.harness.run();
        let mut before: Option<(String, egui::Rect)> = None;
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
