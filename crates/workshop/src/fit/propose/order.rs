//! A board for a customer's order: the wishes, the slab, the wood, and the paper of the template.

use board::{Board, Build, BuildError, Field, Paper, SheetLayout, Shop, StockOutline, Wood};

use super::neat::Neat;
use super::shop::for_shop;
use super::{ProposeError, Refusal, Wishes, off_rows};
use crate::{Finding, Mend, Rule, Severity, Workpiece, joined, stock_plan};

/// A customer's order for a board; everything left out is chosen.
///
/// ```
/// use workshop::{BoardOrder, Wishes, Workpiece, propose_order, stops};
/// let order = BoardOrder {
///     wishes: Wishes { players: Some(4), diameter: Some(508.0), ..Wishes::default() },
///     species: Some("sugar-maple".into()),
///     paper: Some(board::Paper::Letter),
///     ..BoardOrder::default()
/// };
/// let (board, _) = propose_order(&order, &board::Shop::default())?;
/// assert_eq!((board.blank.diameter, board.template.paper), (508.0, board::Paper::Letter));
/// assert!(!stops(Workpiece::of(&board)?.findings()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BoardOrder {
    /// Players, pattern, pieces, and a size if one is given.
    pub wishes: Wishes,
    /// The slab for the board. Where neither its diameter nor its hole spacing is wished for, the board is as large as the slab
    /// allows.
    pub slab: Option<OrderSlab>,
    /// The species of its wood, as an id of the table.
    pub species: Option<String>,
    /// The paper of its template.
    pub paper: Option<Paper>,
}

/// A slab with sawn edges, and how the board is made from it.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderSlab {
    /// Length along the grain, mm.
    pub length: f64,
    /// Width across the grain, mm.
    pub width: f64,
    /// Thickness before planing or resawing, mm.
    pub thickness: f64,
    /// The parts that the board is joined from.
    pub build: Build,
}

impl OrderSlab {
    fn give(&self, board: &mut Board) {
        board.stock.outline = StockOutline::Slab {
            length: self.length,
            width: self.width,
            lower: Vec::new(),
            upper: Vec::new(),
        };
        board.stock.thickness = self.thickness;
        board.panel.build = self.build.clone();
    }

    /// The largest board that the shop can make from it, mm.
    fn largest(&self, board: &Board) -> f64 {
        let never = || false;
        let mut board = board.clone();
        self.give(&mut board);
        let plan = stock_plan(&board.stock, &never).ok().flatten();
        let Some(plan) = plan else { return 0.0 };
        let of_parts = || {
            let slab = plan.slab.as_ref().ok()?;
            joined(&board, slab, &never).ok()
        };
        match self.build {
            Build::Whole | Build::Seams { .. } => plan.largest_board(&board),
            Build::Halves => of_parts().map_or(0.0, |joined| joined.halves),
            Build::Strips { count } => of_parts()
                .and_then(|joined| joined.strips.into_iter().find(|of| of.count == count))
                .map_or(0.0, |of| of.diameter),
        }
    }
}

/// The board for an order, with the shop's values, and the shop's fields that would stop it and keep the proposed values.
///
/// # Errors
/// [`ProposeError`] where no board with everything ordered can be made and played.
pub fn propose_order(
    order: &BoardOrder,
    shop: &Shop,
) -> Result<(Board, Vec<&'static Field>), ProposeError> {
    let (board, left_out) = for_shop(&sized(order, shop)?, shop)?;
    let board = with_wood_and_paper(order, board);
    let ordered = off_seams(off_rows(board, order.wishes.rotation)?);
    let workpiece = studied(&ordered)?;
    let is_stop = |finding: &&Finding| finding.severity == Severity::Stop;
    match workpiece.findings().iter().find(is_stop) {
        Some(stop) => Err(refusal(order, stop.message.clone())),
        None => Ok((ordered, left_out)),
    }
}

/// The workpiece with its findings about the blank worked out, which takes a moment and cannot be canceled.
fn studied(board: &Board) -> Result<Workpiece, BuildError> {
    let workpiece = Workpiece::of(board)?;
    let _ = workpiece.work_out(&|| false);
    Ok(workpiece)
}

/// The board with its pattern turned where a seam comes close to its holes, if turning clears them.
fn off_seams(board: Board) -> Board {
    let is_near = |board: &Board| {
        let workpiece = studied(board);
        workpiece.is_ok_and(|workpiece| workpiece.findings().iter().any(|f| f.rule == Rule::Seam))
    };
    if board.panel.build == Build::Whole || !is_near(&board) {
        return board;
    }
    let turned = Mend::TurnOffSeams.applied(&board).ok();
    turned.filter(|turned| !is_near(turned)).unwrap_or(board)
}

/// The wishes of an order, with the diameter that its slab allows where no size is wished for.
fn sized(order: &BoardOrder, shop: &Shop) -> Result<Wishes, ProposeError> {
    let mut wishes = order.wishes.clone();
    let is_open = wishes.diameter.is_none() && wishes.pitch.is_none();
    if let Some(slab) = order.slab.as_ref().filter(|_| is_open) {
        let neat = Neat::of(wishes.units.unwrap_or_default());
        let mut begun = neat.plain.clone();
        shop.give(&mut begun);
        let most = neat.board_step.down(slab.largest(&begun));
        let range = board::field::BOARD_DIAMETER.range();
        if range.check(most).is_err() {
            let why = "no board comes out of this slab: check its length and width, or join it from more parts";
            return Err(refusal(order, why.into()));
        }
        wishes.diameter = Some(most);
    }
    Ok(wishes)
}

fn with_wood_and_paper(order: &BoardOrder, mut board: Board) -> Board {
    if let Some(slab) = &order.slab {
        slab.give(&mut board);
    }
    if let Some(species) = &order.species {
        let wood = board.wood.get_or_insert_with(Wood::default);
        wood.species.clone_from(species);
    }
    if let Some(paper) = order.paper.filter(|paper| *paper != board.template.paper) {
        board.template.paper = paper;
        // The layout was chosen for the other paper.
        board.template.layout = SheetLayout::Fewest;
    }
    board
}

fn refusal(order: &BoardOrder, why: String) -> ProposeError {
    ProposeError::Refused(Refusal {
        why,
        offers: Vec::new(),
        units: order.wishes.units.unwrap_or_default(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{species, stops};
    use board::{INCH, Units};

    fn made(order: &BoardOrder) -> Board {
        let (board, _) = propose_order(order, &Shop::default()).unwrap();
        let workpiece = Workpiece::of(&board).unwrap();
        workpiece.work_out(&|| false).unwrap();
        assert!(!stops(workpiece.findings()), "{order:?}");
        board
    }

    #[test]
    fn an_order_in_inches_is_kept_to_the_letter() {
        let wishes = Wishes {
            units: Some(Units::INCH),
            players: Some(4),
            piece_diameter: Some(5.0 / 8.0 * INCH),
            diameter: Some(20.0 * INCH),
            ..Wishes::default()
        };
        let board = made(&BoardOrder {
            wishes,
            species: Some("black-walnut".into()),
            paper: Some(Paper::Letter),
            slab: None,
        });
        assert_eq!((board.players, board.blank.diameter), (4, 20.0 * INCH));
        assert_eq!(board.piece.diameter, 5.0 / 8.0 * INCH);
        assert_eq!(board.template.paper, Paper::Letter);
        assert_eq!(board.wood.unwrap().species, "black-walnut");
        assert!(species().iter().any(|wood| wood.id == "black-walnut"));
    }

    #[test]
    fn a_slab_gives_the_largest_board_that_fits() {
        let of = |build: Build| {
            let slab = OrderSlab {
                length: 1300.0,
                width: 420.0,
                thickness: 60.0,
                build,
            };
            made(&BoardOrder {
                slab: Some(slab),
                ..BoardOrder::default()
            })
        };
        let (whole, halves) = (of(Build::Whole), of(Build::Halves));
        assert!((390.0..=420.0).contains(&whole.blank.diameter));
        assert!(halves.blank.diameter > 1.3 * whole.blank.diameter);
        assert!(matches!(halves.stock.outline, StockOutline::Slab { .. }));
    }

    #[test]
    fn a_board_too_large_for_its_slab_is_refused_with_a_reason() {
        let order = |width: f64, diameter: Option<f64>| BoardOrder {
            wishes: Wishes {
                diameter,
                ..Wishes::default()
            },
            slab: Some(OrderSlab {
                length: 900.0,
                width,
                thickness: 30.0,
                build: Build::Whole,
            }),
            ..BoardOrder::default()
        };
        for order in [order(8.0, None), order(300.0, Some(500.0))] {
            let refused = propose_order(&order, &Shop::default()).unwrap_err();
            assert!(!refused.to_string().is_empty());
        }
    }
}
