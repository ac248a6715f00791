//! Words about the blank: below the picture, and for screen readers.

use board::{Board, FlawKind, FlawShape, Stock, Units, at_mark, show_length, show_most};
use drawing::on_blank::{Grip, place};
use geometry::Point;
use workshop::StockPlan;

use super::drawn::Drawn;
use super::input::Pointed;

const IDLE: &str =
    "Drag a flaw, a corner or the center pin; drag anything else to pan, turn the wheel to zoom";

/// The line for the status bar: the thing under the pointer and its place.
pub fn readout(board: &Board, drawn: &Drawn, pin: Option<Point>, pointed: Pointed) -> String {
    let Some(at) = pointed.at else {
        return IDLE.into();
    };
    let (stock, units) = (&board.stock, board.units);
    let Some(grip) = pointed.grip else {
        let is_wood = drawn
            .wood()
            .is_some_and(|wood| wood.is_sound() && wood.contains(at));
        let what = if is_wood { "wood" } else { "beside the blank" };
        return format!("{}   {what}", at_words(at, units));
    };
    let mut words = name(stock, grip);
    if let Some(at) = place(stock, pin, grip) {
        words = format!("{words}   {}", at_words(at, units));
    }
    if let Grip::Flaw(flaw) = grip
        && let Some(FlawShape::Round { diameter, .. }) =
            stock.flaws.get(flaw).map(|flaw| &flaw.shape)
    {
        words = format!("{words}   diameter {}", length(*diameter, units));
    }
    words
}

/// The label of a flaw: a word and its number in the list, or a letter where there is no room.
pub fn flaw_label(kind: FlawKind, number: usize, is_short: bool) -> String {
    if is_short {
        let letter = kind.label().chars().next().unwrap_or_default();
        return format!("{}{number}", letter.to_ascii_uppercase());
    }
    format!("{} {number}", kind.label())
}

/// The picture in words, for screen readers.
pub fn description(board: &Board, plan: Option<&StockPlan>, pin: Option<Point>) -> String {
    let flaws = match board.stock.flaws.len() {
        0 => "no flaws".into(),
        1 => "1 flaw".into(),
        many => format!("{many} flaws"),
    };
    let pin = pin.map(|pin| format!("; center pin at {}", at_words(pin, board.units)));
    let most = plan.map(|plan| show_most(plan.largest_board(board), board.units));
    let most = most.map(|most| format!("; largest board in one piece {most}"));
    format!(
        "The blank with {flaws}{}{}. By keyboard: [ and ] choose a flaw, a corner or the pin, arrows move it, and so do the number fields under Blank",
        pin.unwrap_or_default(),
        most.unwrap_or_default()
    )
}

/// The name of a thing that can be dragged; numbers as in the panel.
fn name(stock: &Stock, grip: Grip) -> String {
    let flaw = |at: usize| {
        let kind = stock.flaws.get(at).map(|flaw| flaw.kind);
        kind.map_or_else(String::new, |kind| flaw_label(kind, at + 1, false))
    };
    match grip {
        Grip::Pin => "center pin".into(),
        Grip::Corner(at) => format!("corner {}", at + 1),
        Grip::FlawCorner(of, at) => format!("corner {} of {}", at + 1, flaw(of)),
        Grip::Flaw(at) => flaw(at),
    }
}

fn at_words(at: Point, units: Units) -> String {
    format!("x {}   y {}", length(at.x, units), length(at.y, units))
}

/// A length to the nearest mark of a rule.
fn length(mm: f64, units: Units) -> String {
    show_length(at_mark(mm, units), units)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::StockFlaw;

    fn board() -> Board {
        let mut board = Board::default();
        let shape = FlawShape::Round {
            x: 254.0,
            y: -0.01,
            diameter: 25.4,
        };
        board.stock.flaws.push(StockFlaw {
            kind: FlawKind::Knot,
            shape,
        });
        board
    }

    fn said(board: &Board, grip: Option<Grip>) -> String {
        let at = Some(Point::new(50.0, 12.34));
        readout(
            board,
            &Drawn::default(),
            Some(Point::new(1.0, 2.0)),
            Pointed { at, grip },
        )
    }

    #[test]
    fn what_is_pointed_at_is_named_with_its_place_in_the_makers_unit() {
        let mut board = board();
        assert_eq!(
            said(&board, Some(Grip::Flaw(0))),
            "knot 1   x 254 mm   y 0 mm   diameter 25.4 mm"
        );
        assert_eq!(
            said(&board, Some(Grip::Pin)),
            "center pin   x 1 mm   y 2 mm"
        );
        assert_eq!(said(&board, None), "x 50 mm   y 12.3 mm   beside the blank");
        board.units = Units::INCH;
        assert_eq!(
            said(&board, Some(Grip::Flaw(0))),
            "knot 1   x 10\"   y 0\"   diameter 1\""
        );
    }

    #[test]
    fn no_two_kinds_share_a_word_or_a_letter() {
        for is_short in [false, true] {
            let labels = FlawKind::ALL.map(|kind| flaw_label(kind, 2, is_short));
            assert!(labels[0] != labels[1] && labels[1] != labels[2] && labels[0] != labels[2]);
        }
        assert_eq!(flaw_label(FlawKind::Sapwood, 12, true), "S12");
    }

    #[test]
    fn those_who_do_not_see_it_are_told_of_the_number_fields() {
        let words = description(&board(), None, Some(Point::new(3.0, 4.0)));
        assert!(words.contains("1 flaw; center pin at x 3 mm"), "{words}");
        assert!(words.contains("number fields under Blank"), "{words}");
    }
}
