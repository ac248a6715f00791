//! A workpiece: one document and everything that follows from it, each part worked out once, on first use.
//!
//! Checks, shop math, section, steps, pages and exports borrow it. Parts that can take longer than a frame of the window (a
//! blank of many corners, the ways of joining it, the chance of a thin web) are worked out by [`Workpiece::work_out`], which
//! can be stopped; until then they are not known, and the findings do without them.

use std::sync::{Arc, OnceLock};

use board::{
    Board, BuildError, Hole, Layout, Router, Units, layout, show_least, show_length, show_most,
};
use geometry::{Circle, Prism};

use crate::blank::{panel, turn};
use crate::bores::check::inside::hidden;
use crate::grooves::{Strokes, lay_grooves};
use crate::hardboard::{router, sector};
use crate::machine::order::CenterTurn;
use crate::template::correction::Correction;
use crate::template::sheets::{Tiling, TilingError, cut_template};
use crate::{
    BoardMass, Budget, Calendar, CalendarError, Chance, Costing, CutPart, Figures, Finding,
    FinishFix, GroovePlan, HoleTable, Joined, Lid, Order, PlayerLook, Pour, ScrewPlace, SeamTurns,
    SectorJigError, SectorPlan, Standing, StockPlan, Storage, SumGroup, TapedJoints, TenonPlace,
    Today, WoodError, WoodMoves, WorkPlan, base, check, colors, figures, filling, job, machine,
    recess, sums, wood,
};

/// A document and everything that follows from it.
#[derive(Debug)]
pub struct Workpiece {
    pub(crate) board: Board,
    pub(crate) layout: Layout,
    printer: Option<Correction>,
    today: Option<Today>,
    pub(crate) parts: Parts,
}

/// The results that follow from the document, filled in as they are needed.
#[derive(Debug, Default)]
pub(crate) struct Parts {
    pub stock: Arc<OnceLock<Option<StockPlan>>>,
    pub joined: OnceLock<Option<Joined>>,
    pub budget: OnceLock<Option<(Budget, f64)>>,
    pub chance: OnceLock<Option<Chance>>,
    pub calendar: OnceLock<Result<Calendar, CalendarError>>,
    pub costing: OnceLock<Costing>,
    pub cut_list: OnceLock<Vec<CutPart>>,
    mouths: OnceLock<Vec<Circle>>,
    players: OnceLock<Vec<PlayerLook>>,
    figures: OnceLock<Figures>,
    tiling: OnceLock<Result<Tiling, TilingError>>,
    joints: OnceLock<TapedJoints>,
    seams: OnceLock<Vec<f64>>,
    tenons: OnceLock<Vec<TenonPlace>>,
    screws: OnceLock<Vec<ScrewPlace>>,
    turns: OnceLock<Option<SeamTurns>>,
    grooves: OnceLock<Option<GroovePlan>>,
    strokes: OnceLock<Strokes>,
    storage: OnceLock<Option<Storage>>,
    lid: OnceLock<Lid>,
    hidden: OnceLock<Vec<(&'static str, Prism)>>,
    pour: OnceLock<Option<Pour>>,
    moves: OnceLock<Result<WoodMoves, WoodError>>,
    mass: OnceLock<Result<BoardMass, WoodError>>,
    standing: OnceLock<Option<Result<Standing, WoodError>>>,
    router: OnceLock<Option<Box<Workpiece>>>,
    sector: OnceLock<Option<Result<SectorPlan, SectorJigError>>>,
    table: OnceLock<HoleTable>,
    order: OnceLock<Order>,
    work: OnceLock<WorkPlan>,
    finish_fixes: OnceLock<Vec<FinishFix>>,
    sums: [OnceLock<Vec<SumGroup>>; 2],
    /// The findings without the slow parts, and those with them.
    findings: [OnceLock<Vec<Finding>>; 2],
}

impl Workpiece {
    /// The workpiece of a document whose template is printed without correction.
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&Board::default())?;
    /// assert_eq!(workpiece.figures().holes, workpiece.layout().holes.len());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn of(board: &Board) -> Result<Self, BuildError> {
        Self::printed(board, None)
    }

    /// The workpiece of a document whose template is corrected for a printer; the correction is for portrait paper.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{Correction, PrintCorrection, Workpiece};
    /// let print = PrintCorrection { x: 1.006, ..PrintCorrection::IDENTITY };
    /// let laser = Correction { printer: "Laser".into(), print };
    /// let workpiece = Workpiece::printed(&Board::default(), Some(laser))?;
    /// assert!(workpiece.tiling().unwrap().correction.is_some());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn printed(board: &Board, printer: Option<Correction>) -> Result<Self, BuildError> {
        Ok(Self::laid(board.clone(), layout(board)?, printer))
    }

    /// The next revision of this workpiece; results about the blank are kept where the blank is the same.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::Workpiece;
    /// let first = Workpiece::of(&Board::default())?;
    /// let wider = Board { pitch: 20.0, ..first.board().clone() };
    /// let next = first.next(&wider, None)?;
    /// assert!(next.figures().reach > first.figures().reach);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`BuildError`] where the document cannot be laid out.
    pub fn next(&self, board: &Board, printer: Option<Correction>) -> Result<Self, BuildError> {
        let mut next = Self::printed(board, printer)?;
        next.today.clone_from(&self.today);
        let (old, new) = (&self.board.stock, &board.stock);
        if old.outline == new.outline && old.flaws == new.flaws {
            next.parts.stock = self.parts.stock.clone();
        }
        Ok(next)
    }

    /// A workpiece whose holes are already laid out.
    pub fn laid(board: Board, layout: Layout, printer: Option<Correction>) -> Self {
        Self {
            board,
            layout,
            printer,
            today: None,
            parts: Parts::default(),
        }
    }

    /// The workpiece on a day, from which the calendar is made and promises are judged; results that depend on the day are
    /// worked out again.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{Today, Workpiece};
    /// let today = Today { day: "2026-11-30".parse().unwrap(), zone: "America/New_York".into() };
    /// let workpiece = Workpiece::of(&Board::default())?.on(today.clone());
    /// assert_eq!(workpiece.calendar().unwrap().first, today.day);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    #[must_use]
    pub fn on(mut self, today: Today) -> Self {
        self.today = Some(today);
        self.parts.calendar = OnceLock::new();
        self.parts.sums = Default::default();
        self.parts.findings = Default::default();
        self
    }

    /// The document.
    pub const fn board(&self) -> &Board {
        &self.board
    }

    /// The shortest fixes of the finish, best first; empty if every coat holds.
    ///
    /// ```
    /// use board::{Board, Coat, CoatKind};
    /// use workshop::Workpiece;
    /// let waxed = vec![Coat::of(CoatKind::Wax, 1.0), Coat::of(CoatKind::Lacquer, 1.0)];
    /// let workpiece = Workpiece::of(&Board { finish: waxed, ..Board::default() })?;
    /// assert_eq!(workpiece.finish_fixes()[0].words(), "Move wax to the end");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn finish_fixes(&self) -> &[FinishFix] {
        let fixes = || crate::finish::finish_fixes(&self.board.finish);
        self.parts.finish_fixes.get_or_init(fixes)
    }

    /// Every hole in its place.
    pub const fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The correction of the printer, for portrait paper; `None` if the template is printed without correction.
    pub const fn printer(&self) -> Option<&Correction> {
        self.printer.as_ref()
    }

    /// The day; `None` if it is not known.
    pub const fn today(&self) -> Option<&Today> {
        self.today.as_ref()
    }

    /// The maker's system of units.
    pub const fn units(&self) -> Units {
        self.board.units
    }

    /// A length given in mm, in the maker's unit.
    ///
    /// ```
    /// use board::{Board, Units};
    /// use workshop::Workpiece;
    /// let board = Board { units: Units::INCH, ..Board::default() };
    /// assert_eq!(Workpiece::of(&board)?.length(19.05), "3/4\"");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn length(&self, mm: f64) -> String {
        show_length(mm, self.board.units)
    }

    /// A lower limit of a length, given in mm, in the maker's unit and rounded up.
    pub fn at_least(&self, mm: f64) -> String {
        show_least(mm, self.board.units)
    }

    /// An upper limit of a length, given in mm, in the maker's unit and rounded down.
    ///
    /// ```
    /// use board::{Board, Units};
    /// use workshop::Workpiece;
    /// let board = Board { units: Units::INCH, ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// assert_eq!((workpiece.at_most(10.0), workpiece.at_least(10.0)), ("25/64\"".into(), "13/32\"".into()));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn at_most(&self, mm: f64) -> String {
        show_most(mm, self.board.units)
    }

    /// The holes that hold a piece, in the order of the layout.
    ///
    /// The pivot at the center pin holds none; a playing hole there does.
    pub fn seats(&self) -> &[Hole] {
        self.layout.seats(&self.board)
    }

    /// The mouth of every bore in the top face, in the order of the layout.
    pub fn mouths(&self) -> &[Circle] {
        self.parts.mouths.get_or_init(|| self.layout.mouths())
    }

    /// The key sizes, which are always in sight.
    pub fn figures(&self) -> &Figures {
        self.parts.figures.get_or_init(|| figures::figures(self))
    }

    /// The template cut into sheets.
    ///
    /// ```
    /// use board::{Board, Paper};
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// board.template.paper = Paper::A4;
    /// let small = Workpiece::of(&board)?.tiling().unwrap().tiles.len();
    /// board.template.paper = Paper::A3;
    /// assert!(Workpiece::of(&board)?.tiling().unwrap().tiles.len() < small);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`TilingError`] where it cannot be cut.
    pub fn tiling(&self) -> Result<&Tiling, &TilingError> {
        self.parts
            .tiling
            .get_or_init(|| cut_template(self))
            .as_ref()
    }

    /// The joints of the taped template; empty if it cannot be cut into sheets.
    pub fn joints(&self) -> &TapedJoints {
        self.parts.joints.get_or_init(|| {
            self.tiling()
                .map_or_else(|_| TapedJoints::default(), Tiling::taped)
        })
    }

    /// Height of each seam above the center pin, from the lowest, mm; empty without seams.
    ///
    /// ```
    /// use board::{Board, Build};
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// (board.blank.diameter, board.stock.trim) = (600.0, 0.0);
    /// board.panel.build = Build::Strips { count: 4 };
    /// assert_eq!(Workpiece::of(&board)?.seams(), [-150.0, 0.0, 150.0]);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn seams(&self) -> &[f64] {
        self.parts.seams.get_or_init(|| panel::seams(&self.board))
    }

    /// Every loose tenon in its seam.
    pub fn tenons(&self) -> &[TenonPlace] {
        self.parts
            .tenons
            .get_or_init(|| panel::tenons(&self.board, self.seams()))
    }

    /// Every screw in the underside.
    ///
    /// They are seen from the top face, as everything on the board is, though they are driven from below.
    pub fn screws(&self) -> &[ScrewPlace] {
        self.parts.screws.get_or_init(|| panel::screws(&self.board))
    }

    /// The rotation of the pattern relative to the seams; none without seams.
    ///
    /// ```
    /// use board::{Board, Build};
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// assert!(Workpiece::of(&board)?.turns().is_none());
    /// board.panel.build = Build::Halves;
    /// let workpiece = Workpiece::of(&board)?;
    /// let turns = workpiece.turns().unwrap();
    /// assert!(turns.at_best.mm >= turns.now.mm);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn turns(&self) -> Option<&SeamTurns> {
        self.parts
            .turns
            .get_or_init(|| turn::seam_turns(self))
            .as_ref()
    }

    /// The V-grooves; `None` if none are planned.
    ///
    /// ```
    /// use board::{Board, Grooves};
    /// use workshop::Workpiece;
    /// let wanted = Grooves { width: 3.0, angle: 90.0, ..Grooves::default() };
    /// let board = Board { grooves: Some(wanted), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let plan = workpiece.grooves().unwrap();
    /// assert!((plan.depth - 1.5).abs() < 1e-9 && plan.length > 0.0);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn grooves(&self) -> Option<&GroovePlan> {
        self.parts
            .grooves
            .get_or_init(|| lay_grooves(self))
            .as_ref()
    }

    /// Every stroke of the grooves, indexed by position.
    pub(crate) fn strokes(&self) -> &Strokes {
        let all = || self.grooves().map_or(&[][..], |plan| &plan.grooves);
        self.parts.strokes.get_or_init(|| Strokes::new(all()))
    }

    /// The pieces that the recess holds; `None` if none is planned.
    ///
    /// The count uses simple ways of laying pieces, and never exceeds what fits.
    pub fn storage(&self) -> Option<&Storage> {
        self.parts
            .storage
            .get_or_init(|| recess::storage(&self.board))
            .as_ref()
    }

    /// The lid of the recess, and the cuts for it.
    ///
    /// A board without a recess has an empty one, so that callers need not check twice.
    pub fn lid(&self) -> &Lid {
        self.parts.lid.get_or_init(|| Lid::of(&self.board))
    }

    /// The cuts into the board from below and from its seams, each with its name.
    pub(crate) fn hidden(&self) -> &[(&'static str, Prism)] {
        self.parts.hidden.get_or_init(|| hidden(self))
    }

    /// Resin for the bores; `None` if no filling is planned.
    ///
    /// ```
    /// use board::{Board, Filling};
    /// use workshop::Workpiece;
    /// let board = Board { filling: Some(Filling::default()), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let pour = workpiece.pour().unwrap();
    /// // The resin mixed is what is poured plus what stays in the cups.
    /// let cups = board.filling.unwrap().cup * pour.batches.len() as f64;
    /// assert!((pour.resin - pour.poured - cups).abs() < 1e-9);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn pour(&self) -> Option<&Pour> {
        self.parts.pour.get_or_init(|| filling::pour(self)).as_ref()
    }

    /// The color and the mark of each player.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let [first, second, ..] = workpiece.players() else { panic!() };
    /// assert!(first.color != second.color && first.mark != second.mark);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn players(&self) -> &[PlayerLook] {
        self.parts.players.get_or_init(|| {
            let players = 1..=self.board.players;
            players
                .map(|player| colors::player_look(&self.board, player))
                .collect()
        })
    }

    /// The movement of the wood through the seasons.
    ///
    /// # Errors
    /// [`WoodError`] where no wood is chosen, or its movement is neither typed nor in the table.
    pub fn moves(&self) -> Result<&WoodMoves, &WoodError> {
        self.parts
            .moves
            .get_or_init(|| wood::of_board(&self.board))
            .as_ref()
    }

    /// The weight of the board from its wood.
    ///
    /// ```
    /// use board::{Board, Wood};
    /// use workshop::{Workpiece, WoodError};
    /// let bare = Workpiece::of(&Board::default())?;
    /// assert_eq!(bare.mass().unwrap_err(), &WoodError::NoWood);
    /// let board = Board { wood: Some(Wood::default()), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let mass = workpiece.mass().unwrap();
    /// // Grams: volume in mm³ at a density in kg/m³.
    /// assert!((mass.wood - mass.volume * mass.density.value * 1e-6).abs() < 1e-6);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`WoodError`] where no wood is chosen, or its density is neither typed nor in the table.
    pub fn mass(&self) -> Result<&BoardMass, &WoodError> {
        self.parts
            .mass
            .get_or_init(|| wood::board_mass(self))
            .as_ref()
    }

    /// The load on the base, or the reason why it is not known; `None` if no base is planned.
    pub fn standing(&self) -> Option<Result<&Standing, &WoodError>> {
        let standing = self.parts.standing.get_or_init(|| base::standing(self));
        standing.as_ref().map(Result::as_ref)
    }

    /// The router template as a workpiece of its own, with its router; `None` if none is planned.
    ///
    /// ```
    /// use board::{Board, Router};
    /// use workshop::Workpiece;
    /// let router = Router { bushing: 16.0, bit: 12.0, hardboard: 6.0, ..Router::default() };
    /// let board = Board { router: Some(router), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let (_, template) = workpiece.router().unwrap();
    /// let (bore, opening) = (workpiece.layout().holes[0].bore, template.layout().holes[0].bore);
    /// assert_eq!(opening.diameter, bore.diameter + 4.0);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn router(&self) -> Option<(Router, &Self)> {
        let made = || Some(Box::new(router::template(self, self.board.router?)));
        let template = self.parts.router.get_or_init(made).as_deref()?;
        Some((self.board.router?, template))
    }

    /// The jig that is turned from sector to sector, or the reason why there can be none; `None` if none is planned.
    pub fn sector_jig(&self) -> Option<Result<&SectorPlan, &SectorJigError>> {
        let sector = self.parts.sector.get_or_init(|| sector::sector_jig(self));
        sector.as_ref().map(Result::as_ref)
    }

    /// Every hole with its position and its bore, in the order of names.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let table = workpiece.hole_table();
    /// assert_eq!(table.rows.len(), 145);
    /// assert_eq!(table.rows[0].name.to_string(), "T1-01");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn hole_table(&self) -> &HoleTable {
        self.parts
            .table
            .get_or_init(|| machine::hole_table::hole_table(&self.layout))
    }

    /// The drilling order chosen in the document; it is searched for on first use, which takes a moment.
    ///
    /// The work plan determines when the center hole is drilled.
    pub fn drilling_order(&self) -> &Order {
        let order = || {
            let turn = if self.work_plan().has(job::Task::CenterBore) {
                CenterTurn::Last
            } else {
                CenterTurn::First
            };
            machine::order::drilling_order(self.hole_table(), self.board.order, turn)
        };
        self.parts.order.get_or_init(order)
    }

    /// The work plan: every operation with its needs, in an order that works.
    ///
    /// ```
    /// use workshop::{Task, Workpiece};
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let plan = workpiece.work_plan();
    /// let place = |task| plan.operations.iter().position(|it| it.task == task);
    /// assert!(place(Task::PinHole) < place(Task::Circle));
    /// // The playing hole at the center takes away what the pin stands in.
    /// assert!(place(Task::Circle) < place(Task::CenterBore));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn work_plan(&self) -> &WorkPlan {
        self.parts.work.get_or_init(|| job::work_plan(self))
    }

    /// All shop math, by subject.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let sums = workpiece.sums().iter().flat_map(|group| &group.sums);
    /// assert!(sums.into_iter().all(|sum| !sum.name.is_empty() && !sum.formula.is_empty()));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn sums(&self) -> &[SumGroup] {
        let [early, late] = &self.parts.sums;
        let known = if self.calendar_is_waiting() {
            early
        } else {
            late
        };
        known.get_or_init(|| sums::sums(self))
    }

    /// Every finding, worst first, from the results known so far.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{Rule, Workpiece, stops};
    /// let crowded = Board { pitch: 12.5, ..Board::default() };
    /// let workpiece = Workpiece::of(&crowded)?;
    /// assert!(stops(workpiece.findings()));
    /// assert!(workpiece.findings().iter().any(|finding| finding.rule == Rule::Web));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn findings(&self) -> &[Finding] {
        let [early, late] = &self.parts.findings;
        let known = if self.is_waiting() { early } else { late };
        known.get_or_init(|| check::check(self))
    }
}
