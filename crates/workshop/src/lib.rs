//! Everything that follows from a document: the workpiece, and a module for each subject of the shop.
//!
//! Frame and units are those of crate `geometry`: millimeters, origin at the center pin, y up, bearings clockwise from 12
//! o'clock. Heights in a section are above the top face; depths are below it. Masses are in g for a piece and in kg for a board
//! on its base, volumes of resin in ml, forces in N, moistures in %; each item states its unit.
//!
//! # From a document to what is wrong with it
//!
//! ```
//! use board::Board;
//! use workshop::{Mend, Rule, Severity, Workpiece};
//!
//! let crowded = Board { pitch: 13.0, ..Board::default() };
//! let workpiece = Workpiece::of(&crowded)?;
//! let web = workpiece.findings().iter().find(|finding| finding.rule == Rule::Web).unwrap();
//! assert_eq!(web.severity, Severity::Caution);
//! assert!(web.mends.contains(&Mend::WiderPitch));
//! // The fix gives a document again, which no longer has the finding.
//! let mended = Workpiece::of(&Mend::WiderPitch.applied(&crowded).unwrap())?;
//! assert!(mended.findings().iter().all(|finding| finding.rule != Rule::Web));
//! # Ok::<(), board::BuildError>(())
//! ```
//!
//! # What is inside
//!
//! * [`Workpiece`]: one document and everything that follows from it, each part worked out once.
//! * [`Finding`], [`Rule`], [`Severity`]: problems before they happen; a [`Mend`] fixes one in one step.
//! * [`Sum`], [`SumGroup`]: all shop math as data, with its formula and source; [`Figures`]: those always in sight.
//! * [`section()`], [`recess_section`], [`bore_sizes`], [`recess_sizes`]: the board cut open, and its sizes.
//! * [`WorkPlan`], [`Operation`], [`Task`], [`Method`]: every operation with its needs, in an order that works; [`Caution`]:
//!   warnings where hands, lungs and children are at risk.
//! * [`solve`], [`Open`]: pitch, board, rim margin, bore or piece, left open and solved from the rest; [`most_spaces`],
//!   [`smallest_pitch_for_piece`], [`smallest_board_for_piece`]: solving for sizes that fit.
//!
//! The modules of the subjects:
//!
//! * bores: [`bore_profile`], [`marble_seat`], [`hold`], [`flights`], [`drills`], [`nearest_drills`], [`fit_strips`].
//! * grooves: [`GroovePlan`], [`Stroke`], [`groove_depth`], [`passes`].
//! * recess: [`Storage`], [`Lid`], [`LidSize`], [`lid_moves`].
//! * filling: [`Pour`], [`Batch`], [`working_time`], [`mix_parts`].
//! * blank: [`slab`], [`stock_plan`], [`joined`], [`panel_width`], [`SeamTurns`], [`Thicknesses`].
//! * wood: [`species`], [`equilibrium_moisture`], [`wood_moves`], [`BoardMass`], [`tone`].
//! * base: [`Standing`], [`tipping_force`].
//! * template: [`Tiling`], [`Correction`], [`print_scale`], [`budget`], [`chance`].
//! * hardboard: [`router_settings`], [`SectorPlan`].
//! * jig: [`jig_sheet`], [`radii`], [`plate_fit`], [`dividers`].
//! * machine: [`HoleTable`], [`Order`].
//! * colors: [`player_look`], [`HoleTint`], [`Tint`], [`contrast`], [`color_distance`], [`Sight`].
//! * calendar: [`Calendar`], [`Dated`], [`Promise`], [`Today`].
//! * finish: [`coat_data`], [`bond`], [`meetings`], [`finish_fixes`], [`finish_needs`], [`FinishPreset`],
//!   [`to_mask`], [`to_unmask`], [`hard_after`], [`hard_hours`].
//! * price: [`costing`], [`Costing`], [`Money`], [`described`].
//! * shopping: [`shopping()`], [`ToBuy`], [`cut_list`], [`CutPart`], [`board_feet`].
//!
//! The crate knows nothing of windows and file formats.

mod base;
mod blank;
mod bores;
mod calendar;
mod caution;
mod check;
mod colors;
mod figures;
mod filling;
mod finish;
mod fit;
mod grooves;
mod handover;
mod hardboard;
mod jig;
mod job;
mod machine;
mod mend;
mod price;
mod recess;
mod repair;
mod section;
mod shopping;
mod slow;
mod sums;
mod template;
mod wood;
mod workpiece;

pub use base::{Standing, tipping_edge, tipping_force};
pub use blank::panel::{EdgePlace, ScrewPlace, TenonPlace, panel_width, piece_width, sawn_width};
pub use blank::stock::{
    Joined, Slab, SlabError, StockPlan, StripBoard, joined, leaf_thickness, slab, stock_plan,
};
pub use blank::thickness::Thicknesses;
pub use blank::turn::{SeamTurns, ToSeam};
pub use bores::drills::{Cutter, Drill, NearDrill, Series, drills, nearest_drills};
pub use bores::holds::{
    Flight, GRAVITY, Hold, Leaving, MagnetHold, MarbleStand, PegStand, flights, flush_bore, hold,
    insert_below, insert_diameter, insert_gap, insert_mass, magnet_hold, marble_stand, peg_stand,
    piece_density, piece_mass,
};
pub use bores::owned::{OwnedBit, bit_name, owned_bit, owned_bits};
pub use bores::profile::{ball_volume, bore_profile, deepest, tip};
pub use bores::seat::{MarbleSeat, marble_seat};
pub use bores::sizes::{BoreSizes, Floor, FloorOver, InsertSizes, Stands, bore_sizes};
pub use bores::strip::{Fit, FitStrip, FitTry, diameter_field, fit_diameters, fit_strips};
pub use calendar::{Calendar, CalendarError, Dated, Promise, Stretch, Today};
pub use caution::{Caution, FIRST, PROTECTION};
pub use check::players::age_words;
pub use check::{Finding, Rule, Severity, stopped_by, stops};
pub use colors::resin::{GrooveResin, groove_resin};
pub use colors::{
    ALIKE, HoleTint, LEAST_CONTRAST, MARK_LINE, PlayerLook, Sight, Tint, color_distance,
    color_name, contrast, distance_to, luminance, mark_name, mark_places, player_look, seen_by,
    seen_on,
};
pub use figures::{Figures, ThinnestWood};
pub use filling::{
    Batch, FilledBore, MixParts, Pour, SectorPour, mix_parts, open_bore, parts_shown, working_time,
};
pub use finish::{
    Bond, BondSort, CoatData, FinishChange, FinishFix, FinishNeed, FinishPreset, Meeting, Parts,
    bond, coat_data, coat_ml, columns, covered, finish_fixes, finish_hours, finish_needs,
    hard_after, hard_hours, is_sound as finish_holds, last_to_harden, meetings,
    time as drying_time, to_mask, to_unmask, volume as finish_volume,
};
pub use finish::{care_words, topcoat};
pub use fit::{
    BoardOrder, BoreBound, FitError, InsertError, InsertWish, Limit, Offer, Open, OrderSlab,
    PieceBoard, ProposeError, Refusal, Solved, Wish, Wishes, insert_depth, largest_bore,
    largest_bore_bound, largest_piece, largest_pitch, most_spaces, neat_board_for_piece,
    neat_pitch_for_piece, propose, propose_for_shop, propose_order, rim_left, smallest_board,
    smallest_board_for_piece, smallest_pitch_for_piece, solve,
};
pub use grooves::{Groove, GrooveKind, GroovePlan, Stroke, groove_depth, passes};
pub use hardboard::owned::{RouterPair, owned_pair};
pub use hardboard::router::{
    PlungeSetting, RouterSetting, RouterWay, plunge, plunges, router_settings,
};
pub use hardboard::sector::{
    Closing, IndexHole, PlayError, SectorJigError, SectorPlan, SectorTurn,
};
pub use hardboard::steps::{router_work, sector_work};
pub use jig::{
    CircleCut, Dividers, JIG_CAUTIONS, JigSheet, MOST_DIVISIONS, PlateFit, Radius, RadiusHole,
    circle_cut, closing_error, dividers, exact_divisions, jig_sheet, plate_fit, radii,
};
pub use job::{
    BatchTime, HandsOn, Method, Need, Operation, Room, Task, Wait, WorkPlan, WorkStage, batch_time,
    cautions_of, is_shared,
};
pub use machine::hole_table::{HoleRow, HoleTable};
pub use machine::order::Order;
pub use mend::{Mend, MendError};
pub use price::{Costing, Money, OperationTime, PricedLine, Rate, Sale, costing, described};
pub use recess::lid_cut::Lid;
pub use recess::lid_moves::{LidMoves, lid_moves};
pub use recess::lid_size::LidSize;
pub use recess::sizes::{LidPlace, RecessSizes, recess_sizes};
pub use recess::{Storage, pieces, recess_outline};
pub use repair::cause::{Cause, Reading, Readings, Verdict, readings};
pub use repair::check::readings::verdict_words;
pub use repair::measure::{ToMeasure, worth_measuring};
pub use repair::plug::{Around, Plug, Remedy, Repair, repairs};
pub use repair::words::RepairWords;
pub use section::{
    Body, BodyKind, Cavity, CavityKind, Face, Plane, Section, cut_through, recess_section, section,
};
pub use shopping::{
    CutFrom, CutPart, PartOutline, PartSize, Shelf, SoldBy, SoldThickness, ToBuy, board_feet,
    boards_of, cubic_meters, cut_list, shopping, tallied_board_feet,
};
pub use sums::{Sum, SumGroup};
pub use template::budget::{
    Budget, BudgetError, Chance, FarHole, HoleError, TapedJoints, Work, budget, chance,
    chance_at_most, root_sum_square, true_position, worst_case,
};
pub use template::correction::{Correction, printable, printable_size};
pub use template::paper::{paper_of, paper_size};
pub use template::print_scale::{
    PrintBar, PrintCorrection, PrintError, PrintFault, PrintLength, PrintReadings, PrintScale,
    print_scale,
};
pub use template::sheets::{
    Drawn, DrawnPart, LEAST_OVERLAP, Tile, Tiling, TilingError, cross_arm_of, cut_into_sheets,
};
pub use wood::{
    BoardMass, Known, Look, NEUTRAL_WOOD, Pores, Season, Species, WoodError, WoodMoves,
    change_of_size, equilibrium_moisture, equilibrium_moisture_at_fahrenheit, look, species, tone,
    tone_of, wood_moves,
};
pub use workpiece::Workpiece;
