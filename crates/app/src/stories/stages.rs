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
