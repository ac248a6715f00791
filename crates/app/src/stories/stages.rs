//! Stories of the stages: which sections are folded, and the words of a folded one.

use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::section::Section;
use crate::stage::Stage;

impl Story {
    /// Whether a section is unfolded, as a screen reader knows it.
    fn is_open(&self, section: Section) -> bool {
        let header = self
            .harness
            .get_by_role_and_label(Role::DisclosureTriangle, section.title());
        header.accesskit_node().data().is_expanded() == Some(true)
    }

    /// Unfolds a section of the current stage, or folds it.
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

#[test]
fn at_the_template_stage_paper_decides_the_sheets_and_a_router_template_is_planned() {
    let mut story = Story::begin();
    story.press("Template");
    let sheets = |story: &Story| {
        let workpiece = story.app().current.good().unwrap();
        workpiece.tiling().unwrap().tiles.len()
    };
    let on_a4 = sheets(&story);
    story.choose("Paper", "A3");
    assert!(sheets(&story) < on_a4);
    story.fold("Hardboard");
    story.reach("Make router template");
    story.type_into("Guide bushing", "18");
    assert_near!(
        story.app().session.board.router.unwrap().bushing,
        18.0,
        1e-9
    );
    assert!(story.sees("Set the plunge to"));
    story.keys(Modifiers::COMMAND, Key::Z);
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(story.app().session.board.router, None);
}

#[test]
fn at_the_drilling_stage_the_largest_bore_is_fitted_and_says_why_it_is_no_larger() {
    let mut story = Story::begin();
    story.press("Drill");
    story.reach("Largest bore");
    let bores = story.app().session.board.bores;
    assert!(bores.track.diameter > 12.0 && bores.home == bores.track);
    assert!(story.sees("wider, "));
    story.type_into("Bore depth", "4");
    assert!(story.sees("stands on the floor"));
    story.choose("Drilling order", "least travel");
    assert_eq!(
        story.app().session.board.order,
        board::DrillingOrder::Travel
    );
}

#[test]
fn at_the_bench_grooves_storage_and_resin_are_planned_and_told() {
    let mut story = Story::begin();
    story.press("Bench");
    story.press("Rout V-grooves");
    assert!(story.sees("Groove depth"));
    story.fold("Grooves");
    story.press("Rout a recess");
    story.type_into("Recess depth", "12");
    assert!(story.sees("Holds about"));
    story.fold("Storage recess");
    story.fold("Filling");
    story.press("Fill holes with resin");
    assert!(story.sees("Resin in all"));
    let board = &story.app().session.board;
    assert!(board.grooves.is_some() && board.filling.is_some());
    assert_near!(board.recess.unwrap().depth, 12.0, 1e-9);
    story.press("Undo");
    assert_eq!(story.app().session.board.filling, None);
}

#[test]
fn at_the_finish_stage_a_schedule_of_coats_is_taken_and_told() {
    let mut story = Story::begin();
    story.harness.state_mut().session.board.finish.clear();
    story.harness.run();
    story.press("Finish");
    story.fold("Players' colors");
    story.press("Use a schedule");
    let label = workshop::FinishPreset::ALL[0].label();
    story.press(label);
    assert!(!story.app().session.board.finish.is_empty());
    assert!(story.sees("First to last coat"));
    story.fold("Finish coats");
    assert!(!story.sees("First to last coat"));
}

#[test]
fn at_the_last_stage_boards_days_and_rates_make_a_price() {
    let mut story = Story::begin();
    story.press("Hand over");
    story.type_into("Boards ordered", "2");
    assert_eq!(story.app().session.board.schedule.boards, 2);
    assert!(story.sees("All finished"));
    story.fold("Calendar");
    story.write_into("Hourly rate", "40");
    assert_eq!(story.app().session.board.price.hourly, Some(40.0));
    assert!(story.sees("Cost of 2 boards"));
}

/// The view over the drawing, as its tab or the list of further views tells.
fn shown(story: &Story) -> &'static str {
    story.app().view.face.label()
}

/// The stages, each with the name of the view that fits a board with a blank, a recess and coats.
const FITTING: [(&str, &str); 7] = [
    ("Lay out", "Board plan"),
    ("Wood", "Blank plan"),
    ("Template", "Board plan"),
    ("Drill", "Section of the board, cut through T1-07"),
    ("Bench", "Section of the board, cut through T1-07"),
    ("Finish", "Section through the film of the finish"),
    ("Hand over", "Filled: hands-on time"),
];

#[test]
fn each_stage_shows_the_view_that_fits_it() {
    let mut story = Story::begin();
    let board = &mut story.harness.state_mut().session.board;
    board.recess = Some(board::Recess::default());
    board.finish = vec![board::Coat::default()];
    board.stock.outline = board::StockOutline::Slab {
        length: 1200.0,
        width: 600.0,
        lower: Vec::new(),
        upper: Vec::new(),
    };
    story.harness.run_steps(4);
    for (stage, view) in FITTING {
        story.press(stage);
        story.harness.run_steps(4);
        assert!(story.sees(view), "{stage}");
        assert_eq!(shown(&story) == "Sheets", stage == "Template");
    }
}

#[test]
fn a_view_chosen_by_hand_is_kept_for_its_stage_alone() {
    let mut story = Story::begin();
    story.press("Drill");
    assert_eq!(shown(&story), "Section");
    story.press("Plan");
    story.press("Template");
    assert_eq!(shown(&story), "Sheets");
    // Keys choose as tabs do.
    story.keys(Modifiers::COMMAND, Key::T);
    assert_eq!(shown(&story), "Plan");
    story.press("Lay out");
    story.press("Drill");
    assert_eq!(shown(&story), "Plan");
    let kept = serde_json::to_string(&story.app().settings).unwrap();
    let read: Settings = serde_json::from_str(&kept).unwrap();
    let board = &story.app().session.board;
    assert_eq!(read.looks.of(Stage::Template, board).label(), "Plan");
}

/// Whoever points at the drawing, or at a finding about it, keeps it in sight.
#[test]
fn what_is_not_a_way_to_a_stage_leaves_the_view_alone() {
    let mut story = Story::begin();
    story.press("Drill");
    story.press("Go to Pieces (caution: child safety)");
    assert_eq!(
        (story.app().view.stage, shown(&story)),
        (Stage::LayOut, "Section")
    );
    story.press("Lay out");
    assert_eq!(shown(&story), "Plan");
}
