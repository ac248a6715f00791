//! Everything that follows from a document, worked out once for each of its revisions.

use std::sync::OnceLock;

use board::{Board, BuildError, Layout, layout};
use drawing::{Correction, Item, Tiling, TilingError, plan_without_names, tiling};
use workshop::{
    Budget, Figures, Finding, GroovePlan, Judged, Pour, SeamTurns, SectorJigError, SectorPlan,
    SectorPour, SumGroup, TapedJoints, Work, budget, chance_at_most, check, figures, grooves, pour,
    seam_turns, sector_jig, sums,
};

use crate::blank::Blank;

/// Everything that follows from a document.
#[derive(Debug, Clone)]
pub struct Derived {
    /// Every hole, placed.
    pub layout: Layout,
    /// The measures that are always in sight.
    pub figures: Figures,
    /// The template cut into sheets, or why it cannot be.
    pub tiling: Result<Tiling, TilingError>,
    /// Where the board lies on its blank.
    pub blank: Blank,
    /// How the pattern lies to the seams, if there are any.
    pub turns: Option<SeamTurns>,
    /// Where the V-grooves run, if any are planned.
    pub grooves: Option<GroovePlan>,
    /// The jig that is turned from sector to sector, if one is asked for, or why there is none.
    pub sector: Option<Result<SectorPlan, SectorJigError>>,
    /// What the errors of the work leave, and the most chance of a thin web; none of many holes while that is worked out
    /// beside the window.
    pub budget: Option<(Budget, f64)>,
    /// What would go wrong, worst first.
    pub findings: Vec<Finding>,
    /// The plan that screen and template share, but for the names, which the screen writes itself.
    pub plan: Vec<Item>,
    /// The sums of the bench, once somebody has looked at them.
    sums: OnceLock<Vec<SumGroup>>,
    /// The plan of the filling and what each sector takes, once somebody has looked at them.
    pour: OnceLock<Option<(Pour, Vec<SectorPour>)>>,
}

impl Derived {
    /// Works everything out, however long it takes.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn of(board: &Board) -> Result<Self, BuildError> {
        Self::printed(board, None)
    }

    /// Works everything out, however long it takes, for a template whose sheets are corrected for a printer.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn printed(board: &Board, printer: Option<&Correction>) -> Result<Self, BuildError> {
        let late = |layout: &Layout, joints: &TapedJoints| budgeted(board, layout, joints);
        Self::with(board, printer, Blank::of(&board.stock), late)
    }

    /// Works out what can be worked out in a frame.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn on(
        board: &Board,
        printer: Option<&Correction>,
        blank: Blank,
    ) -> Result<Self, BuildError> {
        Self::with(board, printer, blank, |layout, joints| {
            let few = layout.holes.len() <= AT_ONCE;
            few.then(|| budgeted(board, layout, joints)).flatten()
        })
    }

    /// Works everything out on a blank and with a budget that were worked out elsewhere.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn after(
        board: &Board,
        printer: Option<&Correction>,
        blank: Blank,
        budget: Option<(Budget, f64)>,
    ) -> Result<Self, BuildError> {
        Self::with(board, printer, blank, |_, _| budget)
    }

    /// The sums of the bench, worked out when they are first asked for; `board` is the one that this follows from.
    pub fn sums(&self, board: &Board) -> &[SumGroup] {
        self.sums.get_or_init(|| sums(board, &self.layout))
    }

    /// The resin of the board and what each sector takes of it, worked out when it is first asked for; none where no
    /// filling is planned. `board` is the one that this follows from.
    pub fn pour(&self, board: &Board) -> Option<&(Pour, Vec<SectorPour>)> {
        let poured = || {
            let pour = pour(board, &self.layout)?;
            let sectors = pour.sectors();
            Some((pour, sectors))
        };
        self.pour.get_or_init(poured).as_ref()
    }

    fn with(
        board: &Board,
        printer: Option<&Correction>,
        blank: Blank,
        budget: impl FnOnce(&Layout, &TapedJoints) -> Option<(Budget, f64)>,
    ) -> Result<Self, BuildError> {
        let layout = layout(board)?;
        let tiling = tiling(board, &layout, printer);
        let sheets = tiling.as_ref().map(|tiling| tiling.tiles.len() as u32);
        let sheets = sheets.map_err(|error| error.shown_in(board.units));
        let turns = seam_turns(board, &layout);
        let (grooves, sector) = (grooves(board, &layout), sector_jig(board, &layout));
        let budget = budget(&layout, &taped(&tiling));
        let judged = Judged {
            sheets: sheets.as_ref().copied().map_err(String::as_str),
            stock: blank.plan(),
            turns: turns.as_ref(),
            grooves: grooves.as_ref(),
            sector: sector.as_ref(),
            risk: budget.as_ref().map(|(budget, chance)| (budget, *chance)),
        };
        let findings = check(board, &layout, judged);
        Ok(Self {
            figures: figures(board, &layout),
            turns,
            findings,
            plan: plan_without_names(board, &layout),
            grooves,
            sector,
            sums: OnceLock::new(),
            pour: OnceLock::new(),
            budget,
            blank,
            tiling,
            layout,
        })
    }
}

/// Boards of no more holes have their budget worked out in the frame.
const AT_ONCE: usize = 500;

/// The budget of a board, and the most chance of a thin web.
pub fn budgeted(board: &Board, layout: &Layout, joints: &TapedJoints) -> Option<(Budget, f64)> {
    let work = Work {
        mouths: &layout.mouths(),
        errors: &board.errors,
        joints,
    };
    // A document in its ranges has errors and holes that can be added up.
    Some((
        budget(&work).ok()?,
        chance_at_most(&work, board.limits.web).ok()?,
    ))
}

/// Where the sheets of the template are taped together; nowhere while it cannot be cut.
pub fn taped(tiling: &Result<Tiling, TilingError>) -> TapedJoints {
    tiling.as_ref().map_or_else(
        |_| TapedJoints::default(),
        |tiling| {
            let (upright, level) = tiling.joints();
            TapedJoints { upright, level }
        },
    )
}
