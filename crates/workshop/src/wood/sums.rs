//! Shop math about the wood: moisture, movement, lid, weight.

use board::{Board, Measure};

use crate::Workpiece;
use crate::recess::lid_moves::{LidMoves, lid_moves};
use crate::sums::{GEOMETRY, MOVEMENT, Sum, SumGroup, TYPED};
use crate::wood::{BoardMass, Season, WoodError, WoodMoves};

/// The source of the equation for moisture.
const SORPTION: &str = "Wood Handbook, FPL-GTR-190 (2010), Eq. 4-5; coefficients through public source code that cites it";
/// The name of the equation for moisture; wood science calls it by its authors.
const HAILWOOD: &str = "Hailwood and Horrobin's equation of temperature and humidity";
/// A note below the weight: cuts and parts that the calculation omits.
const LEFT_OUT: &str = "the weight leaves out grooves, screws and their holes, pilots, the groove of a sliding lid beyond \
     its recess, and finish; tenons count as the wood they replace";
/// A note below the movement: the table of species has only the two extremes, flat-sawn and quarter-sawn.
const ROUGH: &str = "real boards are rarely all flat- or quarter-sawn, and tend to move less across the grain than the \
     equation says (Wood Handbook)";

/// The group; `None` if no wood is planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let wood = board.wood.as_ref()?;
    let mut sums = Vec::new();
    let mut notes = vec![ROUGH.to_owned(), LEFT_OUT.to_owned()];
    match workpiece.moves() {
        Ok(moves) => {
            sums.extend(moistures(moves));
            sums.extend(movement(board, moves));
        }
        Err(error) => notes.push(error.to_string()),
    }
    if let Some(Ok(lid)) = lid_moves(workpiece) {
        sums.extend(of_lid(&lid));
    }
    match workpiece.mass() {
        Ok(mass) => sums.extend(weight(mass)),
        // The movement has already reported the unknown species.
        Err(WoodError::Unknown { .. }) if wood.change.is_none() => {}
        Err(error) => notes.push(error.to_string()),
    }
    Some(SumGroup {
        heading: "wood",
        sums,
        notes,
    })
}

/// The movement per 1 % of moisture, and the moisture when cut and in each season, with their sources.
fn moistures(moves: &WoodMoves) -> Vec<Sum> {
    let moisture = |name, percent: f64, formula, source| {
        Sum::new(name, Some(Measure::share(percent / 100.0)), formula, source)
    };
    let (cut_by, cut_from) = if moves.shop.source == TYPED {
        ("by a meter", TYPED)
    } else {
        (HAILWOOD, SORPTION)
    };
    vec![
        Sum::new(
            "movement per 1 % of moisture",
            Some(Measure::number(moves.change.value)),
            "tangential where flat-sawn, radial where quarter-sawn, as a share",
            moves.change.source,
        ),
        moisture("moisture when cut", moves.shop.value, cut_by, cut_from),
        moisture("moisture in the dry season", moves.dry, HAILWOOD, SORPTION),
        moisture(
            "moisture in the humid season",
            moves.humid,
            HAILWOOD,
            SORPTION,
        ),
    ]
}

/// Diameters in the dry and the humid season, and the change over the year.
fn movement(board: &Board, moves: &WoodMoves) -> Vec<Sum> {
    /// The formula of the change of the diameter in a season.
    const CHANGE: &str = "diameter · movement per 1 % · (moisture then - moisture when cut)";
    /// The formula of the change from the dry season to the humid one.
    const YEAR: &str = "size · movement per 1 % · (moisture in the humid season - in the dry)";
    /// The formula of the largest and smallest diameter of an oval board.
    const OVAL: &str = "the diameter when cut, along the grain; with the change, across the grain";
    let diameter = board.blank.diameter;
    let season = |names: [&'static str; 3], season: Season| {
        [
            Sum::mm(names[0], season.change, CHANGE, MOVEMENT),
            Sum::mm(names[1], season.largest, OVAL, MOVEMENT),
            Sum::mm(names[2], season.smallest, OVAL, MOVEMENT),
        ]
    };
    let dry = [
        "change of the board in the dry season",
        "largest diameter in the dry season",
        "smallest diameter in the dry season",
    ];
    let humid = [
        "change of the board in the humid season",
        "largest diameter in the humid season",
        "smallest diameter in the humid season",
    ];
    let mut sums: Vec<Sum> = season(dry, moves.dry_board(diameter)).into();
    sums.extend(season(humid, moves.humid_board(diameter)));
    let year = moves.over_the_year(diameter);
    sums.push(Sum::mm("movement over the year", year, YEAR, MOVEMENT));
    let mut circles: Vec<f64> = board.screws.iter().map(|screws| screws.circle).collect();
    circles.sort_by(f64::total_cmp);
    circles.dedup();
    sums.extend(circles.into_iter().map(|circle| {
        let play = moves.over_the_year(circle);
        Sum::mm("movement across a circle of screws", play, YEAR, MOVEMENT).at(Measure::mm(circle))
    }));
    sums
}

/// The gap around the lid through the seasons, and the range of clearances in which it neither binds nor falls out.
fn of_lid(lid: &LidMoves) -> Vec<Sum> {
    /// The formula of the gap around a lid.
    const GAP: &str = "clearance + opening · change of the board - lid · change of the lid, in the worst season, with the \
         board at rest or as it was cut";
    /// The formula of the least and most clearance that a lid can be made with.
    const CLEARANCE: &str =
        "the clearance at which the gap just reaches 0 (least) or the hold on the lid (most)";
    let most = lid.most.map(Measure::mm);
    vec![
        Sum::mm("least clearance of the lid", lid.least, CLEARANCE, MOVEMENT),
        Sum::new("most clearance of the lid", most, CLEARANCE, MOVEMENT),
        Sum::mm("smallest gap at the lid", lid.tightest, GAP, MOVEMENT),
        Sum::mm("largest gap at the lid", lid.widest, GAP, MOVEMENT),
        Sum::mm(
            "hold on the lid, each side",
            lid.held,
            "overlap of a ledge; thickness · tangent of the lean of a dovetailed groove",
            GEOMETRY,
        ),
    ]
}

/// The weight of the board, and its parts.
fn weight(mass: &BoardMass) -> Vec<Sum> {
    let kilograms = |grams: f64| Some(Measure::kilograms(grams / 1000.0));
    let mut sums = vec![
        Sum::new(
            "volume of the wood",
            Some(Measure::solid(mass.volume / 1000.0)),
            "disc - roundover - holes - recess, less the lid in it",
            GEOMETRY,
        ),
        Sum::new(
            "density of the wood when cut",
            Some(Measure::kilograms_per_cubic_meter(mass.density.value)),
            "1000 · specific gravity · (1 + moisture / 100), its volume following the moisture from 12 %",
            mass.density.source,
        ),
        Sum::new(
            "weight of the wood",
            kilograms(mass.wood),
            "volume · density",
            GEOMETRY,
        ),
    ];
    let parts = [
        (
            "weight of the resin",
            mass.resin,
            "volume in the holes, leveled · its density",
            "density as typed for the filling",
        ),
        (
            "weight of the inserts",
            mass.inserts,
            "volume · 7.85 g/cm³",
            "density of steel, from data sheets of bearing balls",
        ),
    ];
    let parts = parts.into_iter().filter(|(_, grams, ..)| *grams > 0.0);
    sums.extend(
        parts.map(|(name, grams, formula, source)| {
            Sum::new(name, kilograms(grams), formula, source)
        }),
    );
    sums.push(Sum::new(
        "weight of the board",
        kilograms(mass.total()),
        "wood + resin + inserts",
        GEOMETRY,
    ));
    sums
}
