//! The order that tasks require among themselves, with the reasons.
//!
//! A need for a task that is not in the plan has no effect. The rows never form a cycle, whatever a board plans: the compiler
//! proves it.

use super::Task;

/// Tasks that must be done before a task, and the reason.
pub struct Needs {
    /// The task that has the need.
    pub task: Task,
    /// The tasks that must come before it.
    pub before: &'static [Task],
    /// The reason, as a clause without its period.
    pub why: &'static str,
}

/// Every need, one per row: a task, its predecessors, and the reason.
macro_rules! needs {
    ($($task:ident after $($before:ident)+: $why:expr;)+) => {
        /// Every need, by subject.
        pub const NEEDS: &[Needs] = &[$(Needs {
            task: Task::$task,
            before: &[$(Task::$before),+],
            why: $why,
        }),+];
    };
}

/// Wood that is still moving.
const RESTED: &str = "wood worked before it has reached the moisture of the shop warps later";
/// The playing hole in place of the pin's hole.
const CENTER_LAST: &str = "the center hole takes away the wood that the pin turns in";
/// Bores before the things that go into them.
const BORED: &str = "every hole must be drilled before anything goes into it";
/// Resin must cure before any cut through it.
const CURED: &str = "resin that has not cured smears, and clogs blades and paper";
/// Resin above the top face is leveled before cuts into that face.
const LEVELED: &str = "leveling resin later would tear or fill the grooves";
/// A square blank is easier to clamp than a round one.
const CORNERS_CLAMP: &str = "clamps, fence and template need the blank's square edges and corners";
/// The pin's hole before the work on the pin.
const ON_PIN: &str = "the pin goes into that hole";
/// The machine's other programs, and the hand work on a whole blank, before the edge.
const WHOLE: &str =
    "until the edge is cut the blank is in one piece, and can be clamped, turned and put back";
/// Cuts before sanding.
const CUT_BEFORE_SANDING: &str = "grit left in the wood dulls the tools that still have to cut";
/// Bores before the grooves that run between them.
const SEEN: &str = "grooves stop short of the holes, so the holes must be there to see";
/// Bores before inlays.
const INLAID_LAST: &str = "a bit that meets an inlay tears it out";
/// Wood before finish.
const CLEAN: &str = "finish goes on clean, sanded wood";
/// Plugs and tape before the finish.
const RUNS_IN: &str = "finish runs into every hole that is open";
/// The test piece before the coats.
const TRIED: &str = "coats that do not stick or dry are found on scrap, not on the board";
/// The edge before tools guided along it.
const ROUND_FIRST: &str = "the bearing runs along the finished edge";
/// The machine's zero is on the center, which is bored later.
const ZERO: &str = "X and Y are set on the center, so its hole comes after";

needs! {
    // From the lumberyard to a flat board.
    Resaw after Rest: RESTED;
    Rough after Rest: RESTED;
    Rough after Resaw: "sawing frees tension in the leaves; plane them once they stop moving";
    Joint after Rough: "an edge is jointed square to a face that is already flat";
    Mortise after Joint: "jointing afterwards would make the mortises shallower and move them";
    Glue after Joint: "glue holds on fresh edges that meet all along their length";
    Glue after Mortise: "no mortise can be cut in a seam that is glued";
    Flatten after Rest: RESTED;
    Flatten after Rough: "the wood is small enough to handle once it is sawn out";
    Flatten after Glue: "glue swells the wood beside a seam; if you flatten it before that has dried, the seam sinks later";
    Thickness after Flatten: "the underside is planed parallel to a top that is flat";
    // The test piece takes as many weeks as the board.
    Trial after Thickness: "the offcut must be planed like the board";
    // Templates and the pin.
    RouterTemplate after Print: "the sheets are glued on the hardboard";
    SectorJig after Print: "the sheets are glued on the hardboard";
    PinHole after Thickness: "the pin's hole is drilled square to the finished face, to its own depth";
    PinBlock after Thickness: "the block lies on the finished face";
    Punch after Print: "the centers are punched through the sheets";
    Punch after Thickness: "planing would take the punch marks away";
    Punch after PinHole: "the sheets are laid with their center cross on the pin";
    // The bores.
    PunchedBores after Punch: "the bit starts in the punch mark";
    RoutedBores after RouterTemplate: "the bushing follows the template";
    RoutedBores after Thickness: "the plunge is set from the finished face";
    RoutedBores after PinHole: "the pin holds template and board together";
    SectorBores after SectorJig: "the jig guides the bit";
    SectorBores after PinHole: ON_PIN;
    SectorBores after Thickness: "the stop is set from the finished face";
    PivotBores after PinHole PinBlock: ON_PIN;
    PivotBores after Corners: "a corner would hit the drill press column as the blank turns";
    MachinedBores after Thickness: "Z is set on the finished face";
    MachinedBores after PinHole: "X and Y are set on the pin's hole";
    MachinedGrooves after MachinedBores: SEEN;
    MachinedGrooves after Fill: CURED;
    MachinedGrooves after Level: LEVELED;
    MachinedEdge after MachinedBores MachinedGrooves CenterBore PinRings: WHOLE;
    MachinedEdge after Fill Level: "a skin or a few screws must not carry the board through days of curing and handling";
    Free after MachinedEdge: "the skin or the screws hold the board only until its last program has run";
    // The circle.
    Corners after PinHole PinBlock: "the circle is drawn about the pin";
    Corners after Thickness: "a planer snipes the ends of a board, which are sawn off here";
    Corners after PunchedBores RoutedBores SectorBores MachinedBores: CORNERS_CLAMP;
    Circle after Corners: "a corner that meets the blade first throws the blank";
    Circle after PinHole PinBlock: ON_PIN;
    PinRings after PinHole PinBlock: ON_PIN;
    PinRings after Thickness: "its depth is set from the finished face";
    // The center hole is bored last.
    CenterBore after PinHole: "the bit scores its circle in that step, while its spur still has wood to start in";
    CenterBore after Circle PinRings: CENTER_LAST;
    CenterBore after PunchedBores RoutedBores SectorBores PivotBores: CENTER_LAST;
    CenterBore after MachinedBores: ZERO;
    // The things that go into the bores.
    Seal after CenterBore: BORED;
    Seal after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: BORED;
    Inserts after CenterBore: BORED;
    Inserts after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: BORED;
    Inserts after Seal: "under a ball no sealer gets to the wood";
    Fill after CenterBore: BORED;
    Fill after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: BORED;
    Fill after Circle: "no blade should meet resin that is still soft, so the large cuts come first";
    Fill after PinRings: "the ring is taped over while resin is poured";
    Fill after Inserts: "the resin holds what is set in the holes";
    Fill after Seal: "resin bleeds into open pores and pushes bubbles out of them";
    Level after Fill: CURED;
    // Grooves, edges and the underside.
    Grooves after CenterBore: SEEN;
    Grooves after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: SEEN;
    Grooves after Fill: CURED;
    Grooves after Level: LEVELED;
    Inlay after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: INLAID_LAST;
    Inlay after CenterBore: INLAID_LAST;
    Inlay after Grooves MachinedGrooves PinRings: "inlays lie in the grooves or are fitted between them";
    GrooveFill after Grooves MachinedGrooves PinRings: "resin is poured into grooves that are cut";
    GrooveFill after Circle Free: "no blade should meet resin that is still soft, so the large cuts come first";
    Inlay after GrooveFill: CURED;
    Inlay after Fill: CURED;
    Inlay after Level: LEVELED;
    Roundover after Circle Free: ROUND_FIRST;
    Roundover after Fill GrooveFill: CURED;
    Ease after Circle Free: "cutting the edge later would take the eased edge away";
    Recess after Thickness: "its depth is set from the finished underside";
    Recess after Circle Free: "the recess is measured from the finished edge";
    Recess after Fill GrooveFill: CURED;
    Recess after Level: "the board lies on its top face, which has to be flat";
    Lid after Recess: "the lid is fitted to its place in the recess";
    ScrewHoles after Thickness: "the finished thickness sets how deep they may go";
    ScrewHoles after Circle: "the center of the underside is found from the round edge";
    ScrewHoles after Free: "the underside can be reached once the board is out of the blank";
    ScrewHoles after Recess: "the recess shows where no screw may go";
    ScrewHoles after Fill GrooveFill: "the board lies on its top face, where the resin must be hard";
    // Sanding comes after every cut, the finish after sanding.
    Sand after PunchedBores RoutedBores SectorBores PivotBores MachinedBores: CUT_BEFORE_SANDING;
    Sand after Circle MachinedEdge Free PinRings: CUT_BEFORE_SANDING;
    Sand after CenterBore Grooves MachinedGrooves: CUT_BEFORE_SANDING;
    Sand after Roundover Ease Recess ScrewHoles: CUT_BEFORE_SANDING;
    Sand after Lid: "board and lid are sanded in one go";
    Sand after Fill GrooveFill: CURED;
    Sand after Level: "the resin must be level with the face first";
    Sand after Inserts: "anything proud is found while it can still be fixed";
    Sand after Inlay: "inlays are sanded flush with the face";
    Mask after Sand: "tape and plugs would be sanded off";
    Stain after Sand: "sanding would take the color off again";
    Stain after Mask: "color runs into every hole that is open";
    Stain after Trial: "colors are seen under their finish on scrap first";
    Undercoat after Stain: "dye and stain soak only into bare wood";
    Undercoat after Sand: CLEAN;
    Undercoat after Mask: RUNS_IN;
    Undercoat after Trial: TRIED;
    Paint after Sand: "sanding would take the color off again";
    Paint after Mask: "color runs into every hole that is open";
    Paint after Trial: "colors are seen under their finish on scrap first";
    Paint after Stain: "paint covers, so it goes on when dye and stain are dry";
    Paint after Undercoat: "the coats below keep paint out of the grain";
    Coat after Sand: CLEAN;
    Coat after Mask: RUNS_IN;
    Coat after Trial: TRIED;
    Coat after Undercoat: "each coat goes on a dry one";
    Coat after Stain Paint: "the finish lies over the color and protects it";
    Harden after Coat Undercoat: "cure time counts from the last coat";
    Harden after Stain Paint: "a board is not handled while its finish hardens";
    Base after Sand: "the board is sanded lying flat";
    Base after ScrewHoles: "the screws need their holes";
    Base after Stain Paint: "wet color is smeared when the board is turned over";
    Base after Coat Undercoat: "the wood under the base is finished too";
    Base after Harden: "the board lies on its top face while the base is fixed, and a soft finish takes the print of the pad";
    HandOver after Harden: "a soft finish takes the print of what stands on it";
    HandOver after Stain Paint: "wet color comes off on hands and pieces";
    HandOver after Coat Undercoat: "the pieces are tried in holes that have their finish";
    HandOver after Sand: "the pieces are tried in the finished holes";
    HandOver after Base: "the board is turned and tilted on its base";
    HandOver after Lid: "the pieces are put away under it";
}

/// Whether the needs form no cycle: whether every task can be done when all are planned.
const fn is_free_of_circles() -> bool {
    let mut done = [false; Task::ALL.len()];
    // Each round does every task that is possible; as many rounds as there are tasks are enough.
    let mut round = 0;
    while round < Task::ALL.len() {
        let mut ready = [true; Task::ALL.len()];
        let mut at = 0;
        while at < NEEDS.len() {
            let row = &NEEDS[at];
            let mut before = 0;
            while before < row.before.len() {
                if !done[row.before[before] as usize] {
                    ready[row.task as usize] = false;
                }
                before += 1;
            }
            at += 1;
        }
        done = ready;
        round += 1;
    }
    let mut task = 0;
    while task < Task::ALL.len() {
        if !done[task] {
            return false;
        }
        task += 1;
    }
    true
}

const _: () = assert!(is_free_of_circles(), "needs run in a circle");
