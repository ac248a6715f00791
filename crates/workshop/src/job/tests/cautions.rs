//! On random boards, tools that cut, sand, burn or glue have their cautions, judged by the tools and the words of each
//! operation.

use proptest::prelude::*;

use super::made::boards;
use crate::{Caution, Operation, Workpiece};

/// A tool as operations name it, and the caution it needs.
const TOOLS: [(&str, Caution); 9] = [
    ("router", Caution::Router),
    ("drill press", Caution::DrillPress),
    ("table saw", Caution::TableSaw),
    ("band saw", Caution::BandSaw),
    ("circular saw", Caution::HandSaw),
    ("jointer", Caution::Jointer),
    ("planer", Caution::Jointer),
    ("joiner", Caution::Mortise),
    ("CNC machine", Caution::Cnc),
];

/// Words for powered tools that cut, drill or sand.
const MOTORS: [&str; 8] = [
    "router", "drill", "saw", "jointer", "planer", "joiner", "CNC", "sander",
];

/// The sentences and the tools of an operation in one text.
fn words(operation: &Operation) -> String {
    format!("{}. {}", operation.tool, operation.work.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn each_tool_comes_with_its_cautions(board in boards()) {
        let workpiece = Workpiece::of(&board).unwrap();
        for operation in &workpiece.work_plan().operations {
            let minds = |caution: Caution| operation.cautions.contains(&caution);
            let task = operation.task;
            for (tool, caution) in TOOLS {
                // Where the planer is too narrow, the operation also names a router sled.
                let is_used = operation.tool.contains(tool)
                    && !operation.tool.contains("wider than your planer");
                prop_assert!(!is_used || minds(caution), "{task:?}: {caution:?}");
            }
            if MOTORS.iter().any(|motor| operation.tool.contains(motor)) {
                for caution in [Caution::Eyes, Caution::Dust, Caution::Noise] {
                    prop_assert!(minds(caution), "{task:?}: {caution:?}");
                }
            }
        }
    }

    #[test]
    fn harmful_materials_come_with_their_cautions(board in boards()) {
        let workpiece = Workpiece::of(&board).unwrap();
        for operation in &workpiece.work_plan().operations {
            let words = words(operation);
            let minds = |caution: Caution| operation.cautions.contains(&caution);
            let task = operation.task;
            let air = words.contains("no ordinary fan");
            prop_assert!(!air || minds(Caution::Solvents), "{task:?}");
            let thinned = ["shellac", "Lacquer", "enamel", "polyurethane,", "varnish"];
            let laid = words.starts_with("brush or lint-free rag")
                && thinned.iter().any(|name| words.contains(name))
                && !words.contains("water-based");
            prop_assert!(!laid || air, "{task:?}: {words}");
            let epoxy = words.contains("epoxy") || words.contains("resin cure");
            prop_assert!(!epoxy || minds(Caution::Resin) || minds(Caution::Magnets), "{task:?}: {words}");
            let bright = words.to_lowercase().contains("magnet");
            prop_assert!(!bright || minds(Caution::Magnets) || !words.contains("glue"), "{task:?}: {words}");
        }
        prop_assert!(workpiece.work_plan().operations.iter().all(is_sorted_once));
    }
}

/// Whether the cautions of an operation are in the order of lists, each once.
fn is_sorted_once(operation: &Operation) -> bool {
    operation.cautions.is_sorted_by(|one, next| one < next)
}

#[test]
fn a_saw_without_its_guard_comes_with_safer_ways() {
    let words = Caution::TableSaw.words();
    assert!(words.contains("no room for a guard, do not use the saw"));
    assert!(words.contains("trammel") && words.contains("band saw"));
    let told = super::told(&board::Board::default(), crate::Task::Circle);
    let place = |words: &str| {
        told.find(words)
            .unwrap_or_else(|| panic!("{words}: {told}"))
    };
    assert!(place("trammel is safest") < place("table saw only with a guard"));
    assert!(told.contains("must move away from you"));
}

#[test]
fn gloves_and_the_lists_of_harmful_dust_are_named() {
    assert!(Caution::Resin.words().contains("nitrile gloves"));
    for wood in [
        "Oak", "beech", "birch", "mahogany", "teak", "walnut", "cedar",
    ] {
        assert!(Caution::Dust.words().contains(wood), "{wood}");
    }
    assert!(Caution::Magnets.words().contains("lid"));
    assert!(Caution::Cnc.words().contains("in the air first"));
    assert!(Caution::ALL.iter().all(|it| !it.source().is_empty()));
}
