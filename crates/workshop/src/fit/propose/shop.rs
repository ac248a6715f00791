//! A new board for a maker's shop, with those of the shop's values that do not stop it.

use board::{Board, Center, Field, Shop};

use super::{ProposeError, Wishes, off_rows, proposed};
use crate::{Workpiece, stops};

/// The board proposed for some wishes, with the shop's values, and the shop's fields that would stop it and keep the proposed
/// values.
///
/// # Errors
/// The errors of [`propose`](super::propose): a shop never prevents a board.
///
/// ```
/// use board::{Shop, Value, field};
/// use workshop::{Wishes, propose_for_shop};
/// let mut shop = Shop::default();
/// shop.keep(&field::PLANER, 0, Value::Number(330.0));
/// let (board, left_out) = propose_for_shop(&Wishes::default(), &shop)?;
/// assert_eq!((board.panel.planer, left_out.len()), (330.0, 0));
/// # Ok::<(), workshop::ProposeError>(())
/// ```
pub fn propose_for_shop(
    wishes: &Wishes,
    shop: &Shop,
) -> Result<(Board, Vec<&'static Field>), ProposeError> {
    let (board, left_out) = for_shop(wishes, shop)?;
    Ok((off_rows(board, wishes.rotation)?, left_out))
}

/// The same as [`propose_for_shop`], before its sheets are considered, since the paper may still change.
pub(super) fn for_shop(
    wishes: &Wishes,
    shop: &Shop,
) -> Result<(Board, Vec<&'static Field>), ProposeError> {
    let board = proposed(wishes)?;
    let whole = given(&board, |board| shop.give(board));
    if is_sound(&whole) {
        return Ok((whole, Vec::new()));
    }
    let (mut board, mut left_out) = (board, Vec::new());
    for (field, entry, value) in shop.values() {
        let next = given(&board, |board| {
            field.set(board, entry, value);
        });
        if is_sound(&next) {
            board = next;
        } else {
            left_out.push(field);
        }
    }
    Ok((board, left_out))
}

/// The board with the shop's values, in the wished unit and with a pilot hole for the shop's pin.
fn given(board: &Board, give: impl FnOnce(&mut Board)) -> Board {
    let mut given = board.clone();
    give(&mut given);
    given.units = board.units;
    if given.jig.pin != board.jig.pin {
        match &mut given.center {
            Center::Hole { pilot, .. } => *pilot = given.jig.pin,
            Center::Pivot { diameter, .. } => *diameter = given.jig.pin,
            Center::Nothing => {}
        }
    }
    given
}

fn is_sound(board: &Board) -> bool {
    Workpiece::of(board).is_ok_and(|workpiece| !stops(workpiece.findings()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Units, Value, field};

    #[test]
    fn shop_values_that_would_stop_the_board_are_left_out_and_named() {
        let mut shop = Shop::default();
        assert!(shop.keep(&field::SPUR, 0, Value::Number(45.0)));
        assert!(shop.keep(&field::JIG_PIN, 0, Value::Number(5.0)));
        for units in Units::ALL {
            let wishes = Wishes {
                units: Some(units),
                ..Wishes::default()
            };
            let (board, left_out) = propose_for_shop(&wishes, &shop).unwrap();
            assert!(is_sound(&board));
            assert_eq!(left_out, [&field::SPUR]);
            assert_eq!((board.jig.pin, board.center.pilot()), (5.0, Some(5.0)));
            assert_eq!(board.units, units);
        }
    }
}
