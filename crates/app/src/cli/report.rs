//! The facts that `ringwright check --json` prints beside the findings; `docs/formats/findings.md` describes them.

use serde::Serialize;
use workshop::Workpiece;

/// The place of the board on its blank, and the largest boards that the blank gives.
#[derive(Serialize)]
pub struct BlankReport {
    place_mm: Option<[f64; 2]>,
    room_mm: Option<f64>,
    largest_board_mm: f64,
    largest_of_halves_mm: Option<f64>,
    half: Option<HalfReport>,
    largest_of_strips: Vec<StripsReport>,
    strips: Option<Vec<StripReport>>,
}

#[derive(Serialize)]
struct HalfReport {
    center_mm: [f64; 2],
    radius_mm: f64,
    side: &'static str,
}

#[derive(Serialize)]
struct StripsReport {
    count: u32,
    board_mm: f64,
}

#[derive(Serialize)]
#[expect(
    clippy::struct_field_names,
    reason = "the names of the file's members carry their unit"
)]
struct StripReport {
    corner_mm: [f64; 2],
    length_mm: f64,
    width_mm: f64,
}

impl BlankReport {
    /// The report; `None` where no blank is described, or its corners do not form an outline.
    pub fn of(workpiece: &Workpiece) -> Option<Self> {
        let (board, plan) = (workpiece.board(), workpiece.stock()?);
        plan.slab.as_ref().ok()?;
        let joined = workpiece.joined();
        let strips = joined
            .map(|joined| joined.strips.as_slice())
            .unwrap_or_default();
        let places = joined.and_then(|joined| joined.places.as_ref());
        Some(Self {
            place_mm: plan.center(board).map(|center| [center.x, center.y]),
            room_mm: plan.room(board),
            largest_board_mm: plan.largest_board(board),
            largest_of_halves_mm: joined.map(|joined| joined.halves),
            half: joined
                .and_then(|joined| joined.half)
                .map(|half| HalfReport {
                    center_mm: [half.center.x, half.center.y],
                    radius_mm: half.radius,
                    side: match half.side {
                        geometry::Side::Above => "above",
                        geometry::Side::Below => "below",
                    },
                }),
            largest_of_strips: strips
                .iter()
                .map(|strips| StripsReport {
                    count: strips.count,
                    board_mm: strips.diameter,
                })
                .collect(),
            strips: places.map(|places| {
                let strip = |place: &geometry::StripPlace| StripReport {
                    corner_mm: [place.corner.x, place.corner.y],
                    length_mm: place.size.length,
                    width_mm: place.size.width,
                };
                places.iter().map(strip).collect()
            }),
        })
    }
}

/// The gap between holes and glued seams, now and with the best rotation of the pattern.
#[derive(Serialize)]
pub struct SeamReport {
    at_mm: Vec<f64>,
    gap_mm: f64,
    nearest: String,
    best_rotation_deg: f64,
    best_gap_mm: f64,
}

impl SeamReport {
    /// The report; `None` for a board without seams.
    pub fn of(workpiece: &Workpiece) -> Option<Self> {
        let turns = workpiece.turns()?;
        Some(Self {
            at_mm: workpiece.seams().to_vec(),
            gap_mm: turns.now.mm,
            nearest: turns.now.hole.to_string(),
            best_rotation_deg: turns.best,
            best_gap_mm: turns.at_best.mm,
        })
    }
}

/// The errors of the finished board, and the risk of too little wood between two holes.
#[derive(Serialize)]
pub struct AccuracyReport {
    worst_hole_mm: Option<f64>,
    likely_hole_mm: Option<f64>,
    smallest_web_mm: Option<f64>,
    likely_web_mm: Option<f64>,
    worst_web_mm: Option<f64>,
    risk: Option<f64>,
    risk_standard_error: Option<f64>,
}

impl AccuracyReport {
    /// The report; `None` where the errors cannot be calculated.
    pub fn of(workpiece: &Workpiece) -> Option<Self> {
        let (budget, _) = workpiece.budget()?;
        let chance = workpiece.chance();
        let web = |web: Option<geometry::Web>| web.map(|web| web.mm);
        Some(Self {
            worst_hole_mm: budget.worst_hole.map(|hole| hole.mm),
            likely_hole_mm: budget.likely_hole.map(|hole| hole.mm),
            smallest_web_mm: web(budget.nominal_web),
            likely_web_mm: web(budget.likely_web),
            worst_web_mm: web(budget.worst_web),
            risk: chance.map(|chance| chance.share),
            risk_standard_error: chance.map(|chance| chance.standard_error),
        })
    }
}
