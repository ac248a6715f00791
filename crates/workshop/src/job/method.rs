//! The method by which the holes are made.

use board::{Board, DrillingMethod};

/// The method by which the holes are made: the maker's choice, or the method that the planned parts of the document require.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Method {
    /// Punched through a paper template, and drilled.
    Template,
    /// Routed with a hardboard template.
    Router,
    /// Drilled through a jig of one sector.
    SectorJig,
    /// Drilled with the blank on its pin, against a stop or an index plate.
    Pivot,
    /// Drilled by a CNC machine.
    Machine,
}

impl Method {
    /// Every method.
    pub const ALL: [Self; 5] = [
        Self::Template,
        Self::Router,
        Self::SectorJig,
        Self::Pivot,
        Self::Machine,
    ];

    /// The method of a board.
    ///
    /// ```
    /// use board::{Board, DrillingMethod, Machine, Router};
    /// use workshop::Method;
    /// let mut board = Board::default();
    /// assert_eq!(Method::of(&board), Method::Template);
    /// board.router = Some(Router::default());
    /// assert_eq!(Method::of(&board), Method::Router);
    /// board.machine = Some(Machine::default());
    /// assert_eq!(Method::of(&board), Method::Machine);
    /// board.method = DrillingMethod::Pivot;
    /// assert_eq!(Method::of(&board), Method::Pivot);
    /// ```
    pub const fn of(board: &Board) -> Self {
        match board.method {
            DrillingMethod::Router => Self::Router,
            DrillingMethod::SectorJig => Self::SectorJig,
            DrillingMethod::Pivot => Self::Pivot,
            DrillingMethod::Machine => Self::Machine,
            DrillingMethod::Automatic if board.machine.is_some() => Self::Machine,
            DrillingMethod::Automatic if board.router.is_some() => Self::Router,
            DrillingMethod::Automatic if board.sector_jig.is_some() => Self::SectorJig,
            DrillingMethod::Template | DrillingMethod::Automatic => Self::Template,
        }
    }

    /// Its name on sheets.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Template => "paper template and punch",
            Self::Router => "router template",
            Self::SectorJig => "one-player drilling jig",
            Self::Pivot => "pivot and stop",
            Self::Machine => "CNC machine",
        }
    }
}
