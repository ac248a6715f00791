//! What would go wrong before wood is cut, and what is made: findings and the hole table.
//!
//! Frame and units are those of crate `geometry`: millimeters, origin at the center pin, y up.
//!
//! # What is inside
//!
//! * [`check`]: every [`Finding`] about a board; one rule a file.
//! * [`budget`], [`chance`]: how far off the holes may come out, and what that leaves of the webs.
//! * [`figures`]: the few measures that are always in sight.
//! * [`solve`], [`Open`]: pitch, board, rim margin, bore or piece, left open and solved from the rest.
//! * [`most_spaces`], [`smallest_pitch_for_piece`], [`smallest_board_for_piece`]: what fits, what a piece needs.
//! * [`Mend`]: what mends a finding in one step; [`changes`]: what it changed.
//! * [`stock_plan`], [`joined`]: the board on its blank, and what joining would give.
//! * [`seams`], [`tenons`], [`screws`], [`seam_turns`]: how the board is glued, and the pattern turned off the seams.
//! * [`marble_seat`]: how a marble sits in its bore.
//! * [`drills`], [`nearest_drills`]: the sizes that drills and cutters are made in, and those nearest to a bore.
//! * [`job_steps`]: the work step by step.
//! * [`storage`]: how many pieces a recess in the underside holds.
//! * [`pour`], [`working_time`]: resin for the bores, in batches that are poured in time.
//! * [`print_scale`], [`PrintCorrection`]: what a printer does wrong, and what takes it out of a page.
//! * [`bond`]: which coat of finish bonds to which, and how long it waits.
//! * [`species`], [`equilibrium_moisture`], [`wood_moves`], [`lid_moves`]: wood in the seasons.
//! * [`board_mass`], [`standing`]: what the board weighs, what its base carries, and what tips it.
//! * [`hold`], [`flights`]: what it takes to move a piece out of its hole.
//! * [`grooves`], [`groove_depth`]: where V-grooves run, how deep and in how many passes.
//! * [`router_template`], [`router_settings`], [`sector_jig`]: templates of hardboard.
//! * [`jig_sheet`], [`drilling_order`]: radii, index plates, dividers, the circle jig, the order of drilling.
//! * [`section()`], [`recess_section`], [`bore_sizes`], [`recess_sizes`]: a board cut open, and its sizes.
//! * [`Caution`]: what to mind where hands, lungs and children are at risk.
//! * [`sums`]: every sum of the bench as data, with its formula and source.
//! * [`hole_table`]: every hole with its place and bore, in the order of names.
//!
//! The crate knows nothing of windows, sizes of paper and file formats.

mod base;
mod blank;
mod bores;
mod caution;
mod changes;
mod check;
mod figures;
mod filling;
mod finish;
mod fit;
mod grooves;
mod hardboard;
mod jig;
mod job;
mod machine;
mod mend;
mod recess;
mod section;
mod sums;
mod template;
mod wood;
mod workpiece;

pub use base::{Standing, tipping_edge, tipping_force};
pub use blank::panel::{EdgePlace, ScrewPlace, TenonPlace, panel_width, piece_width, sawn_width};
pub use blank::stock::{
    Joined, Slab, SlabError, StockPlan, joined, leaf_thickness, slab, stock_plan,
};
pub use blank::turn::SeamTurns;
pub use bores::drills::{Cutter, Drill, NearDrill, Series, drills, nearest_drills};
pub use bores::holds::{
    Flight, GRAVITY, Hold, Leaving, MagnetHold, MarbleStand, PegStand, flights, hold, insert_below,
    insert_diameter, insert_gap, insert_mass, magnet_hold, marble_stand, peg_stand, piece_density,
    piece_mass,
};
pub use bores::profile::{ball_volume, bore_profile, deepest, tip};
pub use bores::seat::{MarbleSeat, marble_seat};
pub use bores::sizes::{BoreSizes, Floor, FloorOver, InsertSizes, Stands, bore_sizes};
pub use caution::{Caution, FIRST};
pub use changes::changes;
pub use check::{Finding, Rule, Severity, stops};
pub use figures::Figures;
pub use filling::{Batch, FilledBore, Pour, SectorPour, mix_parts, parts_shown, working_time};
pub use finish::{Bond, bond, finish_hours, hard_after};
pub use fit::{
    FitError, Limit, Open, PieceBoard, Solved, largest_bore, largest_piece, largest_pitch,
    most_spaces, rim_left, smallest_board, smallest_board_for_piece, smallest_pitch_for_piece,
    solve,
};
pub use grooves::{Groove, GrooveKind, GroovePlan, Stroke, groove_depth, passes};
pub use hardboard::router::{RouterSetting, RouterWay, plunge, plunges, router_settings};
pub use hardboard::sector::{Closing, SectorJigError, SectorPlan, SectorTurn};
pub use jig::{
    CircleCut, Dividers, JigSheet, MOST_DIVISIONS, PlateFit, Radius, circle_cut, closing_error,
    dividers, exact_divisions, jig_sheet, plate_fit, radii,
};
pub use job::{Step, job_steps};
pub use machine::hole_table::{HoleRow, HoleTable};
pub use machine::order::Order;
pub use mend::{Mend, MendError};
pub use recess::Storage;
pub use recess::lid_cut::Lid;
pub use recess::lid_moves::{LidMoves, lid_moves};
pub use recess::lid_size::LidSize;
pub use recess::sizes::{LidPlace, RecessSizes, recess_sizes};
pub use section::{
    Body, BodyKind, Cavity, CavityKind, Face, Plane, Section, cut_through, recess_section, section,
};
pub use sums::{Sum, SumGroup};
pub use template::budget::{
    Budget, BudgetError, Chance, FarHole, HoleError, TapedJoints, Work, budget, chance,
    chance_at_most, root_sum_square, true_position, worst_case,
};
pub use template::correction::{Correction, printable, printable_size};
pub use template::paper::{paper_name, paper_size};
pub use template::print_scale::{
    PrintBar, PrintCorrection, PrintError, PrintFault, PrintLength, PrintReadings, PrintScale,
    print_scale,
};
pub use template::sheets::{Drawn, Tile, Tiling, TilingError, cut_into_sheets};
pub use wood::{
    BoardMass, Known, Season, Species, WoodError, WoodMoves, change_of_size, equilibrium_moisture,
    equilibrium_moisture_at_fahrenheit, species, wood_moves,
};
pub use workpiece::Workpiece;
