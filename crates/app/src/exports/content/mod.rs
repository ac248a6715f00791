//! The content of exports, before it is bytes: the preview shows the very pages that are written.

mod papers;
mod written;

use std::sync::Arc;

use board::{Board, BuildError, HoleId, Marking};
use drawing::{
    Sheet, Stamp, fit_strip_pages, jig_pages, numbered, printer_test_sheet, router_sheets,
    router_whole, section_sheet, sector_sheets, tiled_sheets, whole_sheet,
};
use export::GcodeOptions;
use jiff::Timestamp;
use kurbo::Rect;
use picture::{Page, Picture, SIZES, View, Words, proof};
use workshop::{HoleTable, Task, Workpiece, cut_through, jig_sheet, paper_size, stopped_by};

use self::papers::CALENDAR;
use super::name::stem;
use super::{ExportError, Kind, Moment};
use crate::watch::Watch;

/// A board laid out, and the day: what every kind of file is made from.
#[derive(Debug, Clone)]
pub struct Source {
    workpiece: Arc<Workpiece>,
    /// The hole that the section is cut through, if one is chosen.
    cut: Option<HoleId>,
    /// Pixels along the longer side of the proof.
    proof: u32,
    moment: Moment,
    /// The instant of making; none: midnight of the day, by UTC.
    stamp: Option<Timestamp>,
    /// Whether the caller wants it to stop.
    watch: Arc<Watch>,
}

/// The content of an export, file by file.
#[derive(Debug, Clone, PartialEq)]
pub struct Content(pub Vec<File>);

/// The content of one file.
#[derive(Debug, Clone, PartialEq)]
pub struct File {
    /// The end of its name.
    pub ending: String,
    /// Its pages, drawing or text.
    pub body: Body,
}

/// The pages, the drawing or the text of a file.
#[derive(Debug, Clone, PartialEq)]
pub enum Body {
    /// Pages of a PDF, with layers where the kind says so.
    Pages(Vec<Sheet>, Layers),
    /// Pages of a PDF with a picture behind everything on the first, and where it lies, mm.
    Illustrated(Vec<Sheet>, Arc<(Picture, Rect)>),
    /// A drawing as SVG.
    Svg(Box<Sheet>),
    /// A drawing as DXF.
    Dxf(Box<Sheet>),
    /// A picture with words, in a format.
    Picture(Arc<Shown>, PictureFormat),
    /// Text as it is written.
    Text(Vec<u8>),
}

/// The files of a proof, by the ends of their names.
const PROOFS: [&str; 6] = [
    "proof.png",
    "proof-perspective.png",
    "proof.svg",
    "proof-perspective.svg",
    "proof.pdf",
    "proof-perspective.pdf",
];

/// The number of a template's sheets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetCount {
    /// The number and the paper in words, as in "12 sheets of A4".
    pub words: String,
    /// Whether it is within the maker's limit for taping sheets together.
    pub is_within_limit: bool,
}

/// A picture, and the words that go with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// The picture without words.
    bare: Picture,
    /// The same with its words as pixels.
    whole: Picture,
    /// The words on paper.
    sheet: Sheet,
    /// Where on the paper the picture goes, mm.
    area: Rect,
}

/// The formats that pictures are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PictureFormat {
    /// Pixels alone.
    Png,
    /// Words over pixels.
    Svg,
    /// The same, on paper.
    Pdf,
}

/// Whether the roles of holes are layers that a reader of the PDF can turn off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layers {
    /// They are.
    Kept,
    /// All is one.
    Merged,
}

/// One thing to look at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part<'a> {
    /// A sheet.
    Sheet(&'a Sheet),
    /// A sheet with a picture behind everything, and where it lies, mm.
    Illustrated(&'a Sheet, &'a Picture, Rect),
    /// A picture.
    Picture(&'a Picture),
    /// A text.
    Text(&'a [u8]),
}

impl Content {
    /// Everything there is to preview, page by page, each with its name.
    pub fn parts(&self) -> Vec<(String, Part<'_>)> {
        let mut parts = Vec::new();
        for (at, file) in self.0.iter().enumerate() {
            let of = |what: &str, at: usize, count: usize, name: &str| {
                format!("{what} {} of {count}: {name}", at + 1)
            };
            let whole = of("file", at, self.0.len(), &file.ending);
            match &file.body {
                Body::Pages(sheets, _) | Body::Illustrated(sheets, _) => {
                    let first = parts.len();
                    parts.extend(sheets.iter().enumerate().map(|(page, sheet)| {
                        (
                            of("page", page, sheets.len(), &sheet.label),
                            Part::Sheet(sheet),
                        )
                    }));
                    if let Body::Illustrated(sheets, behind) = &file.body
                        && let (Some((_, part)), Some(sheet)) =
                            (parts.get_mut(first), sheets.first())
                    {
                        *part = Part::Illustrated(sheet, &behind.0, behind.1);
                    }
                }
                Body::Svg(sheet) | Body::Dxf(sheet) => parts.push((whole, Part::Sheet(sheet))),
                Body::Picture(shown, _) => parts.push((whole, Part::Picture(&shown.whole))),
                Body::Text(text) => parts.push((whole, Part::Text(text))),
            }
        }
        parts
    }
}

impl Source {
    /// The source of files of a workpiece.
    pub fn new(workpiece: Arc<Workpiece>, moment: Moment) -> Self {
        Self {
            workpiece,
            cut: None,
            proof: SIZES.1,
            moment,
            stamp: None,
            watch: Arc::default(),
        }
    }

    /// The same, which stops when its watcher says so.
    #[must_use]
    pub fn watched(mut self, watch: Arc<Watch>) -> Self {
        self.watch = watch;
        self
    }

    /// The same of a board that is yet to be laid out, on paper that is not corrected for a printer.
    ///
    /// # Errors
    /// [`BuildError`] where it cannot be.
    pub fn of(board: &Board, moment: Moment) -> Result<Self, BuildError> {
        let mut workpiece = Workpiece::of(board)?;
        if let Some(today) = moment.today("") {
            workpiece = workpiece.on(today);
        }
        // Nothing asks this to stop.
        let _ = workpiece.work_out(&|| false);
        Ok(Self::new(Arc::new(workpiece), moment))
    }

    /// The same, made at an instant.
    #[must_use]
    pub fn at(mut self, stamp: Timestamp) -> Self {
        self.stamp = Some(stamp);
        self
    }

    /// The same, with the section cut through a hole where one is chosen.
    #[must_use]
    pub fn with_cut(mut self, hole: Option<HoleId>) -> Self {
        self.cut = hole;
        self
    }

    /// The same, with a proof of so many pixels along its longer side.
    #[must_use]
    pub fn with_proof(mut self, pixels: u32) -> Self {
        self.proof = pixels;
        self
    }

    /// The watch over the job that writes the files.
    pub fn watch(&self) -> &Watch {
        &self.watch
    }

    /// Pixels along the longer side of the proof.
    pub const fn proof_size(&self) -> u32 {
        self.proof
    }

    /// The board and everything that follows from it.
    pub fn workpiece(&self) -> &Workpiece {
        &self.workpiece
    }

    /// The board.
    pub fn board(&self) -> &Board {
        self.workpiece.board()
    }

    /// The content of an export of a kind.
    ///
    /// # Errors
    /// [`ExportError`] where the board does not plan for it, the template cannot be cut into sheets, or a setting is
    /// missing.
    pub fn content(&self, kind: Kind) -> Result<Content, ExportError> {
        if let Some(missing) = kind.missing(self.board()) {
            return Err(ExportError::Unplanned(missing));
        }
        Ok(Content(match kind {
            Kind::TemplatePdf => vec![pdf("template.pdf", self.tiled()?)],
            Kind::TemplateSvg => {
                let named =
                    |sheet: Sheet| file(&svg_name(&sheet.label), Body::Svg(Box::new(sheet)));
                self.tiled()?.into_iter().map(named).collect()
            }
            Kind::PlotPdf => {
                let pages = Body::Pages(vec![self.plotted()?], Layers::Kept);
                vec![file("whole.pdf", pages)]
            }
            Kind::Svg => vec![file("whole.svg", Body::Svg(Box::new(self.whole())))],
            Kind::Dxf => vec![file("whole.dxf", Body::Dxf(Box::new(self.circled())))],
            Kind::Section => vec![file("section.svg", Body::Svg(Box::new(self.section()?)))],
            Kind::Csv => {
                let table = export::csv(self.workpiece.hole_table(), self.board().units)?;
                vec![file("holes.csv", Body::Text(table))]
            }
            Kind::Router => self.router()?,
            Kind::Sector => self.sector()?,
            Kind::Jig => self.jig()?,
            Kind::Gcode => {
                let order = self.workpiece.drilling_order();
                self.programs(&self.workpiece.hole_table().in_order(&order.rows))?
            }
            Kind::Job => self.job()?,
            Kind::Card => self.card(),
            Kind::Filling => self.filling(),
            Kind::Finish => self.finish(),
            Kind::Repair => self.repair(),
            Kind::Proof => self.proof()?,
            Kind::Sums => self.sums()?,
            Kind::Lists => self.lists()?,
            Kind::Ical => self.calendar()?,
            Kind::Quote => self.quote()?,
            Kind::FitStrip => {
                let sheets = self.numbered(fit_strip_pages(&self.workpiece, &self.stamp()));
                vec![pdf("fit-strip.pdf", sheets)]
            }
            Kind::PrinterTest => {
                let sheet =
                    printer_test_sheet(self.board(), &self.stamp(), self.workpiece.printer())?;
                vec![pdf("printer-test.pdf", vec![sheet])]
            }
        }))
    }

    /// The names of the files of a kind; none where it cannot be made.
    pub fn file_names(&self, kind: Kind) -> Vec<String> {
        let endings = match kind {
            Kind::TemplatePdf => vec!["template.pdf".into()],
            Kind::PlotPdf => vec!["whole.pdf".into()],
            Kind::Svg => vec!["whole.svg".into()],
            Kind::Dxf => vec!["whole.dxf".into()],
            Kind::Section => vec!["section.svg".into()],
            Kind::Csv => vec!["holes.csv".into()],
            Kind::Router | Kind::Sector | Kind::Filling | Kind::Finish
                if kind.missing(self.board()).is_some() =>
            {
                Vec::new()
            }
            Kind::Filling => vec!["filling.pdf".into()],
            Kind::Finish => vec!["finish.pdf".into()],
            Kind::Router => vec!["router.pdf".into(), "router.svg".into()],
            Kind::Sector => vec!["sector.pdf".into()],
            Kind::Job => vec!["job.pdf".into()],
            Kind::Card => vec!["card.pdf".into()],
            Kind::Repair => vec!["repair.pdf".into()],
            Kind::Proof => PROOFS.map(Into::into).into(),
            Kind::Sums => vec!["sums.csv".into(), "sums.json".into()],
            Kind::Quote => ["quote.pdf", "costing.pdf", "costing.csv"]
                .map(Into::into)
                .into(),
            Kind::Lists => ["lists.pdf", "shopping.csv", "cut-list.csv"]
                .map(Into::into)
                .into(),
            Kind::Ical if self.workpiece.calendar().is_err() => Vec::new(),
            Kind::Ical => CALENDAR.map(Into::into).into(),
            Kind::FitStrip => vec!["fit-strip.pdf".into()],
            Kind::PrinterTest => vec!["printer-test.pdf".into()],
            Kind::Jig => vec!["jig.pdf".into(), "jig.csv".into()],
            Kind::TemplateSvg => {
                let tiles = self
                    .workpiece
                    .tiling()
                    .map(|tiling| tiling.tiles.as_slice());
                let tiles = tiles.unwrap_or_default().iter();
                tiles.map(|tile| svg_name(&tile.label())).collect()
            }
            // Which bits there are is known once they are written, and that is quick but for the order of holes.
            Kind::Gcode => {
                let programs = self.programs(&self.bit_by_bit()).unwrap_or_default();
                programs.into_iter().map(|file| file.ending).collect()
            }
        };
        endings
            .iter()
            .map(|ending: &String| self.file_name(ending))
            .collect()
    }

    /// The number of the template's sheets; none for kinds without sheets.
    pub fn sheets(&self, kind: Kind) -> Option<SheetCount> {
        let (board, tiling) = (self.board(), self.workpiece.tiling().ok()?);
        let is_tiled = matches!(kind, Kind::TemplatePdf | Kind::TemplateSvg);
        is_tiled.then(|| SheetCount {
            words: tiling.words(board.template.paper),
            is_within_limit: tiling.tiles.len() <= board.limits.sheets as usize,
        })
    }

    fn file_name(&self, ending: &str) -> String {
        format!("{}-{ending}", stem(&self.board().title))
    }

    fn stamp(&self) -> Stamp {
        Stamp {
            date: self.moment.to_string(),
        }
    }

    fn tiled(&self) -> Result<Vec<Sheet>, ExportError> {
        Ok(tiled_sheets(&self.workpiece, &self.stamp())?)
    }

    fn whole(&self) -> Sheet {
        whole_sheet(&self.workpiece, &self.stamp())
    }

    /// The whole board, as wide as the print shop's roll where one is named.
    fn plotted(&self) -> Result<Sheet, ExportError> {
        let whole = self.whole();
        Ok(match self.board().template.roll {
            Some(roll) => whole.on_roll(roll)?,
            None => whole,
        })
    }

    /// The whole board with every bore as a circle, however the template marks them: a machine drills circles.
    fn circled(&self) -> Sheet {
        let mut circled = self.board().clone();
        if circled.template.marking == Marking::Crosses {
            circled.template.marking = Marking::Both;
        }
        let layout = self.workpiece.layout().clone();
        whole_sheet(&Workpiece::laid(circled, layout, None), &self.stamp())
    }

    fn router(&self) -> Result<Vec<File>, ExportError> {
        let (workpiece, stamp) = (&self.workpiece, self.stamp());
        let Some(whole) = router_whole(workpiece, &stamp) else {
            return Ok(Vec::new());
        };
        Ok(vec![
            pdf("router.pdf", router_sheets(workpiece, &stamp)?),
            file("router.svg", Body::Svg(Box::new(whole))),
        ])
    }

    fn sector(&self) -> Result<Vec<File>, ExportError> {
        let Some(jig) = self.workpiece.sector_jig() else {
            return Ok(Vec::new());
        };
        let jig = jig.map_err(Clone::clone)?;
        let sheets = sector_sheets(&self.workpiece, jig, &self.stamp())?;
        Ok(vec![pdf("sector.pdf", sheets)])
    }

    /// The proof from above and in perspective, in every format.
    fn proof(&self) -> Result<Vec<File>, ExportError> {
        let above = Arc::new(self.picture(View::Above)?);
        let perspective = Arc::new(self.picture(View::PERSPECTIVE)?);
        let formats = [PictureFormat::Png, PictureFormat::Svg, PictureFormat::Pdf];
        let shown = formats
            .into_iter()
            .flat_map(|format| [(above.clone(), format), (perspective.clone(), format)]);
        let files = PROOFS.into_iter().zip(shown);
        let made = |(ending, (shown, format))| file(ending, Body::Picture(shown, format));
        Ok(files.map(made).collect())
    }

    fn picture(&self, view: View) -> Result<Shown, ExportError> {
        let template = self.board().template;
        let is_stopped = || self.watch.is_stopped();
        let bare = proof(
            &self.workpiece,
            view,
            self.proof,
            Words::LeftOut,
            &is_stopped,
        )?;
        let page = Page::of(&self.workpiece, view, self.proof);
        let (sheet, area) = page.on_paper(paper_size(template.paper), template.margin);
        Ok(Shown {
            whole: bare.clone().with_words(&page),
            bare,
            sheet,
            area,
        })
    }

    fn jig(&self) -> Result<Vec<File>, ExportError> {
        let (board, jig) = (self.board(), jig_sheet(&self.workpiece));
        let table = export::jig_csv(&jig, board.units)?;
        Ok(vec![
            pdf(
                "jig.pdf",
                self.numbered(jig_pages(&self.workpiece, &jig, &self.stamp())),
            ),
            file("jig.csv", Body::Text(table)),
        ])
    }

    /// The holes in an order that gives the same programs as that of drilling, which takes a moment to search for.
    fn bit_by_bit(&self) -> HoleTable {
        let mut table = self.workpiece.hole_table().clone();
        if !self.workpiece.work_plan().has(Task::CenterBore) {
            table
                .rows
                .sort_by_key(|row| row.name.id() != HoleId::CENTER);
        }
        table
    }

    /// The programs, their holes in the order of the table.
    fn programs(&self, table: &HoleTable) -> Result<Vec<File>, ExportError> {
        let board = self.board();
        let Some(machine) = &board.machine else {
            return Ok(Vec::new());
        };
        let options = GcodeOptions {
            title: board.title.clone(),
            date: self.moment.to_string(),
            stop: stopped_by(self.workpiece.findings()).unwrap_or_default(),
            units: board.units,
            machine: machine.clone(),
            thickness: board.blank.thickness,
            blank: board.stock.thickness,
            spur: board.bores.spur,
        };
        let mut programs = export::gcode(table, &options)?;
        if machine.edge.is_some() {
            programs.push(export::gcode_edge(board.blank.diameter, &options)?);
        }
        let plan = self
            .workpiece
            .grooves()
            .filter(|_| machine.groove.is_some());
        if let (Some(plan), Some(wanted)) = (plan, &board.grooves) {
            programs.push(export::gcode_grooves(&plan.grooves, wanted, &options)?);
        }
        let named = |program: export::Program| {
            file(
                &format!("{}.ngc", program.stem),
                Body::Text(program.text.into_bytes()),
            )
        };
        Ok(programs.into_iter().map(named).collect())
    }

    fn section(&self) -> Result<Sheet, ExportError> {
        let sheet = self
            .cut()
            .and_then(|hole| section_sheet(&self.workpiece, hole, &self.stamp()));
        sheet.ok_or(ExportError::Unplanned("there is no hole to cut through"))
    }

    /// The hole that the section is cut through.
    fn cut(&self) -> Option<HoleId> {
        cut_through(&self.workpiece, self.cut)
    }

    /// Pages with their numbers, counted through the file.
    fn numbered(&self, pages: Vec<Sheet>) -> Vec<Sheet> {
        numbered(pages, self.board().template.margin)
    }
}

fn file(ending: &str, body: Body) -> File {
    File {
        ending: ending.into(),
        body,
    }
}

fn pdf(ending: &str, sheets: Vec<Sheet>) -> File {
    file(ending, Body::Pages(sheets, Layers::Merged))
}

fn svg_name(label: &str) -> String {
    format!("template-{label}.svg")
}
