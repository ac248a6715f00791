//! The tasks on a board, each with the subject it belongs to.

use super::Method;

/// Tasks, each defined once: its meaning, its name on sheets, its subject, and the one method it belongs to, if any.
macro_rules! tasks {
    ($($(#[$doc:meta])+ $task:ident: $title:literal, $room:ident, $method:expr;)+) => {
        /// A kind of operation. The list is arranged by subject; the order of the work follows from the needs, and this list
        /// decides only where the needs leave a choice.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Task {
            $($(#[$doc])+ $task,)+
        }

        impl Task {
            /// Every task, by subject.
            pub const ALL: &[Self] = &[$(Self::$task),+];

            /// Its name on the job sheet, a noun, used in sentences about the order of work.
            pub const fn title(self) -> &'static str {
                match self {
                    $(Self::$task => $title,)+
                }
            }

            /// The name of its variant.
            const fn name(self) -> &'static str {
                match self {
                    $(Self::$task => stringify!($task),)+
                }
            }

            /// The subject whose module describes how it is done.
            pub const fn room(self) -> Room {
                match self {
                    $(Self::$task => Room::$room,)+
                }
            }

            /// The method that it belongs to; none for tasks of every method.
            pub const fn method(self) -> Option<Method> {
                match self {
                    $(Self::$task => $method,)+
                }
            }
        }
    };
}

impl Task {
    /// Its word in a document.
    ///
    /// ```
    /// use workshop::Task;
    /// assert_eq!(Task::PunchedBores.word(), "punched-bores");
    /// assert!(Task::ALL.iter().all(|task| Task::of_word(&task.word()) == Some(*task)));
    /// ```
    pub fn word(self) -> String {
        let mut word = String::new();
        for letter in self.name().chars() {
            if letter.is_uppercase() && !word.is_empty() {
                word.push('-');
            }
            word.extend(letter.to_lowercase());
        }
        word
    }

    /// The task with this word; none for an unknown word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|task| task.word() == word)
    }
}

tasks! {
    /// The wood adjusts to the moisture of the shop.
    Rest: "Resting the wood", Blank, None;
    /// A slab is resawn into two leaves.
    Resaw: "Resawing", Blank, None;
    /// The pieces are sawn oversize and planed for the joint.
    Rough: "Roughing out", Blank, None;
    /// The edges to be glued are planed straight and square.
    Joint: "Jointing the edges", Blank, None;
    /// Mortises for loose tenons are cut into those edges.
    Mortise: "Mortises", Blank, None;
    /// The panel is glued up.
    Glue: "Glue-up", Blank, None;
    /// The top face is made flat.
    Flatten: "Flattening the top", Blank, None;
    /// The underside is planed until the board has its thickness.
    Thickness: "Planing to thickness", Blank, None;
    /// The coats of finish are tested on an offcut.
    Trial: "Test board of the finish", Finish, None;
    /// The paper is printed and measured.
    Print: "Printing the template", Template, None;
    /// The router template is made of hardboard.
    RouterTemplate: "Making the router template", Hardboard, Some(Method::Router);
    /// The jig for one sector is made of hardboard.
    SectorJig: "Making the one-player jig", Hardboard, Some(Method::SectorJig);
    /// The hole for the pin is drilled.
    PinHole: "Hole for the pin", Jig, None;
    /// A block with the pin's hole is attached to a board that has no such hole.
    PinBlock: "Block for the pin", Jig, None;
    /// The template is laid on the blank, and every center is punched.
    Punch: "Punching the centers", Template, Some(Method::Template);
    /// The bores are drilled at their punch marks.
    PunchedBores: "Drilling the holes", Bores, Some(Method::Template);
    /// The bores are routed with the template.
    RoutedBores: "Routing the holes", Hardboard, Some(Method::Router);
    /// The bores are drilled through the jig, sector by sector.
    SectorBores: "Drilling the holes", Hardboard, Some(Method::SectorJig);
    /// The bores are drilled with the blank on its pin, against a stop.
    PivotBores: "Drilling the holes", Jig, Some(Method::Pivot);
    /// The machine drills the bores.
    MachinedBores: "Drilling the holes", Machine, Some(Method::Machine);
    /// The machine cuts the V-grooves.
    MachinedGrooves: "Grooves", Machine, Some(Method::Machine);
    /// The machine cuts the board round.
    MachinedEdge: "Cutting the edge", Machine, Some(Method::Machine);
    /// The board that the machine has cut round is freed from its blank.
    Free: "Cutting the board free", Machine, Some(Method::Machine);
    /// The corners outside the circle are sawn off.
    Corners: "Sawing the corners off", Jig, None;
    /// The board is cut round on its pin.
    Circle: "Cutting the circle", Jig, None;
    /// Rings about the pin are routed on the pin.
    PinRings: "Rings on the pin", Grooves, None;
    /// The playing hole at the center replaces the pin's hole.
    CenterBore: "Playing hole at the center", Bores, None;
    /// Open pores in the bores are sealed before resin is poured.
    Seal: "Sealing the holes", Filling, None;
    /// A ball or disc is set into each bore.
    Inserts: "Setting balls or discs", Bores, None;
    /// Resin is poured, and cures.
    Fill: "Pouring the resin", Filling, None;
    /// Resin above the top face is leveled.
    Level: "Leveling the resin", Filling, None;
    /// V-grooves are routed by hand.
    Grooves: "Grooves", Grooves, None;
    /// Colored resin is poured into grooves, cures and is scraped flush.
    GrooveFill: "Resin in the grooves", Colors, None;
    /// The top edge is rounded over.
    Roundover: "Rounding over the top edge", Jig, None;
    /// The bottom edge is eased.
    Ease: "Easing the bottom edge", Jig, None;
    /// The storage recess is routed into the underside.
    Recess: "Recess", Recess, None;
    /// The lid is made and fitted.
    Lid: "Lid", Recess, None;
    /// Inlays are let into the top face.
    Inlay: "Inlays", Colors, None;
    /// Holes for the screws of the base are drilled.
    ScrewHoles: "Screw holes", Base, None;
    /// The whole board is sanded.
    Sand: "Sanding", Finish, None;
    /// Parts that stay bare are masked.
    Mask: "Masking", Finish, None;
    /// Parts of the board are dyed or stained, which needs bare wood.
    Stain: "Dyeing and staining", Colors, None;
    /// A coat of finish under the paint is applied, and dries.
    Undercoat: "Finish under the paint", Finish, None;
    /// Parts of the board are painted.
    Paint: "Painting", Colors, None;
    /// A coat of finish is applied, and dries.
    Coat: "Finish", Finish, None;
    /// The finish hardens.
    Harden: "Hardening of the finish", Finish, None;
    /// The board is attached to its base.
    Base: "Base", Base, None;
    /// The pieces are tried, and the board is handed over.
    HandOver: "Hand-over", HandOver, None;
}

/// The subject of an operation, whose module of this crate describes how it is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Room {
    /// The wood and its joints.
    Blank,
    /// Sheets of paper.
    Template,
    /// Hardboard templates.
    Hardboard,
    /// Pin, stop and circle.
    Jig,
    /// Bores, and the balls or discs set into them.
    Bores,
    /// The CNC machine.
    Machine,
    /// V-grooves.
    Grooves,
    /// Resin.
    Filling,
    /// Storage in the underside.
    Recess,
    /// The base of the board.
    Base,
    /// Paint, dye, stain and inlays.
    Colors,
    /// Sanding and coats.
    Finish,
    /// The papers and parts that go with the board.
    HandOver,
}
