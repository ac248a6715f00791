//! The board on its blank, worked out once for each blank: a change of the pattern leaves it as it is.

use std::sync::Arc;

use board::{FlawShape, Stock};
use workshop::{StockPlan, stock_plan};

/// Blanks with no more corners and flaws than this are worked out at once, while a corner or a knot is dragged.
const AT_ONCE: usize = 300;

/// The board on its blank.
#[derive(Debug, Clone)]
pub struct Blank {
    stock: Stock,
    plan: Option<Arc<StockPlan>>,
    pending: bool,
}

impl Blank {
    /// Worked out to the end, however long it takes.
    pub fn of(stock: &Stock) -> Self {
        let plan = stock_plan(stock, &|| false).ok().flatten();
        Self::with(stock, plan)
    }

    /// With what was worked out elsewhere.
    pub fn with(stock: &Stock, plan: Option<StockPlan>) -> Self {
        Self {
            stock: stock.clone(),
            plan: plan.map(Arc::new),
            pending: false,
        }
    }

    /// Of a blank that may be the same as before: then nothing is worked out again. One with many corners waits for
    /// [`Blank::with`].
    pub fn after(&self, stock: &Stock) -> Self {
        if self.stock.outline == stock.outline && self.stock.flaws == stock.flaws {
            return self.clone();
        }
        if corners(stock) <= AT_ONCE {
            return Self::of(stock);
        }
        Self {
            stock: stock.clone(),
            plan: None,
            pending: true,
        }
    }

    /// Where the board lies on it; none where nothing is known of the blank, or not yet.
    pub fn plan(&self) -> Option<&StockPlan> {
        self.plan.as_deref()
    }

    /// Whether it is still to be worked out.
    pub fn is_pending(&self) -> bool {
        self.pending
    }
}

fn corners(stock: &Stock) -> usize {
    let flaw = |shape: &FlawShape| match shape {
        FlawShape::Round { .. } => 1,
        FlawShape::Area { corners } => corners.len(),
    };
    let outline = stock.outline.corners().map_or(0, |corners| corners.len());
    outline
        + stock
            .flaws
            .iter()
            .map(|found| flaw(&found.shape))
            .sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::StockOutline;

    fn round(corners: u32) -> Stock {
        let corner = |at: u32| {
            let turn = f64::from(at) / f64::from(corners) * core::f64::consts::TAU;
            [300.0 * libm::cos(turn), 300.0 * libm::sin(turn)]
        };
        Stock {
            outline: StockOutline::Corners {
                corners: (0..corners).map(corner).collect(),
            },
            ..Stock::default()
        }
    }

    #[test]
    fn few_corners_are_worked_out_at_once_and_many_wait() {
        let none = Blank::of(&Stock::default());
        assert!(none.plan().is_none() && !none.is_pending());
        let few = none.after(&round(60));
        assert!(few.plan().is_some());
        let many = few.after(&round(5000));
        assert!(many.plan().is_none() && many.is_pending());
        assert!(many.after(&Stock::default()).plan().is_none());
    }

    #[test]
    fn the_same_blank_is_not_worked_out_again() {
        let blank = Blank::of(&round(60));
        let mut stock = round(60);
        stock.place = Some([1.0, 2.0]);
        let after = blank.after(&stock);
        assert!(core::ptr::eq(blank.plan().unwrap(), after.plan().unwrap()));
    }
}
