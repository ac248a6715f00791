//! Rule: the maker owns the router's bit and guide bushing.

use crate::bores::owned::{bit_name, has_size};
use crate::check::{Finding, Rule, Severity};
use crate::hardboard::owned::owned_pair;
use crate::{Mend, Workpiece};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "If the router bits and guide bushings you own are listed in your shop, the router \
     template is made for two of them. The pair offered makes every hole and leaves enough hardboard. Nothing is said \
     about tools that are not listed.";

/// A note if the maker does not own the bit or the bushing.
///
/// Round-nose bits count as well as straight ones: another rule checks which of them the bores need. The template can be made
/// for tools still to be bought, so this is not a stop.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let Some(router) = board.router else {
        return Vec::new();
    };
    let tools = &board.tools;
    let name = |size| bit_name(size, board.units);
    let bits = [&tools.straight[..], &tools.round_nose].concat();
    let no_bit = !bits.is_empty() && !has_size(&bits, router.bit);
    let no_bushing = !tools.bushings.is_empty() && !has_size(&tools.bushings, router.bushing);
    let missing = match (no_bit, no_bushing) {
        (false, false) => return Vec::new(),
        (true, false) => format!("no {} router bit", name(router.bit)),
        (false, true) => format!("no {} guide bushing", name(router.bushing)),
        (true, true) => format!(
            "no {} router bit and no {} guide bushing",
            name(router.bit),
            name(router.bushing)
        ),
    };
    let finding = |words: String| Finding::new(Severity::Note, Rule::OwnedRouter, words);
    let found = match owned_pair(workpiece) {
        Some(pair) => finding(format!(
            "You own {missing}. Your {} bit in your {} bushing makes these holes too.",
            name(pair.bit),
            name(pair.bushing)
        ))
        .mended_by(&[Mend::OwnedRouter]),
        None => finding(format!(
            "You own {missing}, and no bit and bushing on your list make these holes and leave enough hardboard between \
             them. Add to the list, or buy them."
        )),
    };
    vec![found]
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Router, Tools};

    fn told(straight: &[f64], bushings: &[f64]) -> Vec<Finding> {
        let tools = Tools {
            straight: straight.to_vec(),
            bushings: bushings.to_vec(),
            ..Tools::default()
        };
        let board = Board {
            router: Some(Router::default()),
            tools,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    /// A bushing of 16 mm and a bit of 12 mm are planned.
    #[test]
    fn missing_tools_are_noted_with_an_owned_pair_that_works() {
        assert_eq!(told(&[], &[]), []);
        assert_eq!(told(&[12.0], &[16.0]), []);
        assert_eq!(told(&[12.0], &[]), []);
        let found = told(&[10.0], &[14.0, 16.0]).remove(0);
        assert_eq!(
            found.message,
            "You own no 12 mm router bit. Your 10 mm bit in your 14 mm bushing makes these holes too."
        );
        assert_eq!(found.mends, [Mend::OwnedRouter]);
        let found = told(&[14.0], &[20.0]).remove(0);
        assert!(
            found
                .message
                .contains("no 12 mm router bit and no 16 mm guide bushing")
        );
        assert!(found.mends.is_empty());
    }
}
