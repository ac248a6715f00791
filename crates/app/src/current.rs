//! The workpiece of the document as it is now, or of the last one that could be laid out.

use std::cell::OnceCell;
use std::sync::Arc;

use board::{Board, BuildError, PocketSpot, Units, field};
use drawing::{Item, Tinted, plan_without_names, tints};
use workshop::{Correction, Today, Workpiece};

use crate::places::section_of;
use crate::section::Section;

/// The workpiece of the document as it is now, or of the last one that could be laid out.
pub struct Current {
    /// The document that was worked out last.
    seen: Board,
    /// The last document that could be laid out.
    good: Option<Good>,
    error: Option<BuildError>,
    /// The correction of the template's sheets, with its printer.
    printer: Option<Correction>,
    /// The day, as far as it is known.
    today: Option<Today>,
    /// Where pockets that find their own place are kept while something is dragged.
    pockets: Option<PocketSpot>,
    /// Whether another printer has been chosen since, or another day has come.
    is_stale: bool,
    /// The fields that are not as on a new board, by their sections; worked out when it is first asked for.
    changed: OnceCell<Vec<(Section, String)>>,
}

struct Good {
    workpiece: Arc<Workpiece>,
    plan: Vec<Item>,
    tints: Vec<Tinted>,
}

impl Current {
    /// Works it out for the first time.
    pub fn of(board: &Board) -> Self {
        let mut current = Self {
            seen: board.clone(),
            good: None,
            error: None,
            printer: None,
            today: None,
            pockets: None,
            is_stale: true,
            changed: OnceCell::new(),
        };
        current.refresh(board);
        current
    }

    /// Works it out again if the document has changed.
    pub fn refresh(&mut self, board: &Board) {
        if !self.is_stale && *board == self.seen {
            return;
        }
        self.seen = board.clone();
        self.is_stale = false;
        self.changed = OnceCell::new();
        let printer = self.printer.clone();
        let kept = self.pockets.map(|spot| board.with_pockets_at(spot));
        let board = kept.as_ref().unwrap_or(board);
        let next = match &self.good {
            Some(good) => good.workpiece.next(board, printer),
            None => Workpiece::printed(board, printer),
        };
        self.error = None;
        match next {
            Ok(workpiece) => {
                let workpiece = match self.today.clone() {
                    Some(today) => workpiece.on(today),
                    None => workpiece,
                };
                let plan = plan_without_names(&workpiece);
                let tints = tints(&workpiece);
                let workpiece = Arc::new(workpiece);
                self.good = Some(Good {
                    workpiece,
                    plan,
                    tints,
                });
            }
            Err(error) => self.error = Some(error),
        }
    }

    /// From the next refresh on the template is for a printer.
    pub fn print_on(&mut self, printer: Option<Correction>) {
        self.is_stale |= self.printer != printer;
        self.printer = printer;
    }

    /// From the next refresh on it is another day.
    pub fn be_on(&mut self, today: Option<Today>) {
        self.is_stale |= self.today != today;
        self.today = today;
    }

    /// From the next refresh on, pockets that find their own place are kept at a spot: they would jump about while something else is
    /// dragged. With none they settle where most wood remains.
    pub fn keep_pockets(&mut self, spot: Option<PocketSpot>) {
        self.is_stale |= self.pockets != spot;
        self.pockets = spot;
    }

    /// The workpiece of the last document that could be laid out.
    pub fn good(&self) -> Option<&Arc<Workpiece>> {
        Some(&self.good.as_ref()?.workpiece)
    }

    /// Its plan without names, which the screen writes itself; empty where nothing could be laid out yet.
    pub fn plan(&self) -> &[Item] {
        self.good.as_ref().map_or(&[], |good| &good.plan)
    }

    /// The colored parts of the plan; empty until something can be laid out.
    pub fn tints(&self) -> &[Tinted] {
        self.good.as_ref().map_or(&[], |good| &good.tints)
    }

    /// The names of the fields of a section that are not as on a new board.
    pub fn changed(&self, section: Section) -> Vec<&str> {
        let all = self.changed.get_or_init(|| changed(&self.seen));
        let of_section = all.iter().filter(|(its, _)| *its == section);
        of_section.map(|(_, name)| name.as_str()).collect()
    }

    /// The maker's unit.
    pub const fn units(&self) -> Units {
        self.seen.units
    }

    /// Why the document as it is now cannot be laid out, if it cannot.
    pub fn error(&self) -> Option<&BuildError> {
        self.error.as_ref()
    }
}

/// The fields that are not as on a new board in the same unit, with their sections.
fn changed(board: &Board) -> Vec<(Section, String)> {
    let begun = Board::begun(board.units);
    let differences = field::differences(&begun, board);
    let placed = differences.into_iter().filter_map(|difference| {
        let section = section_of(difference.field)?;
        Some((section, difference.field.label(difference.entry)))
    });
    placed.collect()
}
