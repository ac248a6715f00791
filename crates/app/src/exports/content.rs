//! What an export says, before it is bytes: what is previewed is what is written.

use board::{Board, BuildError, HoleId, Layout, Marking};
use drawing::{
    Correction, Job, Sheet, Stamp, Tiling, TilingError, filling_pages, jig_pages, job_pages,
    paper_name, paper_size, printer_test_sheet, router_sheets, router_whole, section_page,
    section_sheet, sector_sheets, tiled_sheets, whole_sheet,
};
use export::{Date, DxfOptions, GcodeOptions, PdfOptions};
use workshop::{
    Finding, GroovePlan, HoleTable, drilling_order, grooves, hole_table, jig_sheet, pour,
    sector_jig, sums,
};

use super::name::stem;
use super::{ExportError, Kind, Moment};
use crate::derived::Derived;
use crate::section_view::cut_through;

/// A board laid out, and the day: what every kind of file is made from.
#[derive(Debug, Clone)]
pub struct Source {
    board: Board,
    layout: Layout,
    tiling: Result<Tiling, TilingError>,
    findings: Vec<Finding>,
    /// The printer's correction, for paper that goes through upright.
    printer: Option<Correction>,
    /// The hole that the section is cut through, if one is chosen.
    cut: Option<HoleId>,
    moment: Moment,
}

/// What an export says, file by file.
#[derive(Debug, Clone, PartialEq)]
pub struct Content(pub Vec<File>);

/// What one file says.
#[derive(Debug, Clone, PartialEq)]
pub struct File {
    /// What its name ends in.
    pub ending: String,
    /// What is in it.
    pub body: Body,
}

/// What is in a file.
#[derive(Debug, Clone, PartialEq)]
pub enum Body {
    /// Pages of a PDF, with layers where the kind says so.
    Pages(Vec<Sheet>, Layers),
    /// A drawing as SVG.
    Svg(Box<Sheet>),
    /// A drawing as DXF.
    Dxf(Box<Sheet>),
    /// Text as it is written.
    Text(Vec<u8>),
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
    /// A text.
    Text(&'a [u8]),
}

impl Content {
    /// Everything there is to look at, page by page, each with what it is called.
    pub fn parts(&self) -> Vec<(String, Part<'_>)> {
        let mut parts = Vec::new();
        for (at, file) in self.0.iter().enumerate() {
            let of = |what: &str, at: usize, count: usize, name: &str| {
                format!("{what} {} of {count}: {name}", at + 1)
            };
            let whole = of("file", at, self.0.len(), &file.ending);
            match &file.body {
                Body::Pages(sheets, _) => {
                    parts.extend(sheets.iter().enumerate().map(|(page, sheet)| {
                        (
                            of("page", page, sheets.len(), &sheet.label),
                            Part::Sheet(sheet),
                        )
                    }));
                }
                Body::Svg(sheet) | Body::Dxf(sheet) => parts.push((whole, Part::Sheet(sheet))),
                Body::Text(text) => parts.push((whole, Part::Text(text))),
            }
        }
        parts
    }
}

impl Source {
    /// What files are made from, of a board that is laid out already.
    pub fn new(
        board: &Board,
        derived: &Derived,
        printer: Option<Correction>,
        moment: Moment,
    ) -> Self {
        Self {
            printer,
            cut: None,
            board: board.clone(),
            layout: derived.layout.clone(),
            tiling: derived.tiling.clone(),
            findings: derived.findings.clone(),
            moment,
        }
    }

    /// The same of a board that is yet to be laid out.
    ///
    /// # Errors
    /// [`BuildError`] where it cannot be.
    pub fn of(board: &Board, moment: Moment) -> Result<Self, BuildError> {
        Ok(Self::new(board, &Derived::of(board)?, None, moment))
    }

    /// The same, with the section cut through a hole where one is chosen.
    #[must_use]
    pub fn with_cut(mut self, hole: Option<HoleId>) -> Self {
        self.cut = hole;
        self
    }

    /// The board.
    pub const fn board(&self) -> &Board {
        &self.board
    }

    /// What an export of a kind says.
    ///
    /// # Errors
    /// [`ExportError`] where the board does not plan for it, the template cannot be cut into sheets, or a setting is
    /// missing.
    pub fn content(&self, kind: Kind) -> Result<Content, ExportError> {
        if let Some(missing) = kind.missing(&self.board) {
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
                let table = export::csv(&hole_table(&self.layout), self.board.units)?;
                vec![file("holes.csv", Body::Text(table))]
            }
            Kind::Router => self.router()?,
            Kind::Sector => self.sector()?,
            Kind::Jig => self.jig()?,
            Kind::Gcode => {
                let table = hole_table(&self.layout);
                let order = drilling_order(&table, self.board.order);
                self.programs(&table.in_order(&order.rows))?
            }
            Kind::Job => vec![pdf("job.pdf", self.job())],
            Kind::Filling => vec![pdf("filling.pdf", self.filling())],
            Kind::Sums => self.sums()?,
            Kind::PrinterTest => {
                let sheet = printer_test_sheet(&self.board, &self.stamp(), self.printer.as_ref())?;
                vec![pdf("printer-test.pdf", vec![sheet])]
            }
        }))
    }

    /// The files of a kind: their names and their bytes.
    ///
    /// # Errors
    /// As [`Self::content`], and where the format cannot hold it.
    pub fn files(&self, kind: Kind) -> Result<Vec<(String, Vec<u8>)>, ExportError> {
        let files = self.content(kind)?.0.into_iter();
        files
            .map(|file| Ok((self.file_name(&file.ending), self.bytes(file.body)?)))
            .collect()
    }

    fn bytes(&self, body: Body) -> Result<Vec<u8>, export::Error> {
        Ok(match body {
            Body::Pages(sheets, layers) => {
                export::pdf(&sheets, &self.pdf_options(layers == Layers::Kept))?
            }
            Body::Svg(sheet) => export::svg(&sheet)?.into_bytes(),
            Body::Dxf(sheet) => {
                let options = DxfOptions {
                    units: self.board.units,
                    ..DxfOptions::default()
                };
                export::dxf(&sheet, options)?.into_bytes()
            }
            Body::Text(text) => text,
        })
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
            Kind::Router | Kind::Sector | Kind::Filling if kind.missing(&self.board).is_some() => {
                Vec::new()
            }
            Kind::Filling => vec!["filling.pdf".into()],
            Kind::Router => vec!["router.pdf".into(), "router.svg".into()],
            Kind::Sector => vec!["sector.pdf".into()],
            Kind::Job => vec!["job.pdf".into()],
            Kind::Sums => vec!["sums.csv".into(), "sums.json".into()],
            Kind::PrinterTest => vec!["printer-test.pdf".into()],
            Kind::Jig => vec!["jig.pdf".into(), "jig.csv".into()],
            Kind::TemplateSvg => {
                let tiles = self.tiling.as_ref().map(|tiling| tiling.tiles.as_slice());
                let tiles = tiles.unwrap_or_default().iter();
                tiles.map(|tile| svg_name(&tile.label())).collect()
            }
            // Which bits there are is known once they are written, and that is quick but for the order of holes.
            Kind::Gcode => {
                let programs = self.programs(&hole_table(&self.layout)).unwrap_or_default();
                programs.into_iter().map(|file| file.ending).collect()
            }
        };
        endings
            .iter()
            .map(|ending: &String| self.file_name(ending))
            .collect()
    }

    /// How many sheets the template takes, on which paper, and whether the maker cares to tape so many; nothing for
    /// other kinds.
    pub fn sheets(&self, kind: Kind) -> Option<(String, bool)> {
        let tiling = self.tiling.as_ref().ok()?;
        let is_tiled = matches!(kind, Kind::TemplatePdf | Kind::TemplateSvg);
        let count = tiling.tiles.len();
        let noun = if count == 1 { "sheet" } else { "sheets" };
        let words = format!(
            "{count} {noun} of {}",
            paper_name(self.board.template.paper)
        );
        let few = count <= self.board.limits.sheets as usize;
        is_tiled.then_some((words, few))
    }

    fn file_name(&self, ending: &str) -> String {
        format!("{}-{ending}", stem(&self.board.title))
    }

    fn stamp(&self) -> Stamp {
        Stamp {
            date: self.moment.to_string(),
        }
    }

    fn tiled(&self) -> Result<Vec<Sheet>, ExportError> {
        let tiling = self.tiling.as_ref().map_err(Clone::clone)?;
        Ok(tiled_sheets(
            &self.board,
            &self.layout,
            tiling,
            &self.stamp(),
        ))
    }

    fn whole(&self) -> Sheet {
        whole_sheet(&self.board, &self.layout, &self.stamp())
    }

    /// The whole board, as wide as the print shop's roll where one is named.
    fn plotted(&self) -> Result<Sheet, ExportError> {
        let whole = self.whole();
        Ok(match self.board.template.roll {
            Some(roll) => whole.on_roll(roll)?,
            None => whole,
        })
    }

    /// The whole board with every bore as a circle, however the template marks them: a machine drills circles.
    fn circled(&self) -> Sheet {
        let mut circled = self.board.clone();
        if circled.template.marking == Marking::Crosses {
            circled.template.marking = Marking::Both;
        }
        whole_sheet(&circled, &self.layout, &self.stamp())
    }

    fn router(&self) -> Result<Vec<File>, ExportError> {
        let Some(router) = self.board.router else {
            return Ok(Vec::new());
        };
        let tiling = self.tiling.as_ref().map_err(Clone::clone)?;
        let (board, layout, stamp) = (&self.board, &self.layout, self.stamp());
        let whole = router_whole(board, layout, router, &stamp);
        Ok(vec![
            pdf(
                "router.pdf",
                router_sheets(board, layout, router, tiling, &stamp),
            ),
            file("router.svg", Body::Svg(Box::new(whole))),
        ])
    }

    fn sector(&self) -> Result<Vec<File>, ExportError> {
        let (board, layout) = (&self.board, &self.layout);
        let Some(jig) = sector_jig(board, layout) else {
            return Ok(Vec::new());
        };
        let sheets = sector_sheets(board, layout, &jig?, &self.stamp(), self.printer.as_ref())?;
        Ok(vec![pdf("sector.pdf", sheets)])
    }

    fn sums(&self) -> Result<Vec<File>, ExportError> {
        let sums = sums(&self.board, &self.layout);
        Ok(vec![
            file("sums.csv", Body::Text(export::sums_csv(&sums)?)),
            file("sums.json", Body::Text(export::sums_json(&sums)?)),
        ])
    }

    fn jig(&self) -> Result<Vec<File>, ExportError> {
        let jig = jig_sheet(&self.board, &self.layout);
        let table = export::jig_csv(&jig, self.board.units)?;
        Ok(vec![
            pdf("jig.pdf", jig_pages(&self.board, &jig, &self.stamp())),
            file("jig.csv", Body::Text(table)),
        ])
    }

    /// The programs, their holes in the order of the table.
    fn programs(&self, table: &HoleTable) -> Result<Vec<File>, ExportError> {
        let Some(machine) = &self.board.machine else {
            return Ok(Vec::new());
        };
        let options = GcodeOptions {
            title: self.board.title.clone(),
            date: self.moment.to_string(),
            units: self.board.units,
            machine: machine.clone(),
            thickness: self.board.blank.thickness,
            spur: self.board.bores.spur,
        };
        let mut programs = export::gcode(table, &options)?;
        if machine.edge.is_some() {
            programs.push(export::gcode_edge(self.board.blank.diameter, &options)?);
        }
        let plan = grooves(&self.board, &self.layout).filter(|_| machine.groove.is_some());
        if let (Some(plan), Some(wanted)) = (plan, &self.board.grooves) {
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
        let sheet = self.cut().and_then(|(hole, grooves)| {
            let (board, layout) = (&self.board, &self.layout);
            section_sheet(board, layout, grooves.as_ref(), hole, &self.stamp())
        });
        sheet.ok_or(ExportError::Unplanned("there is no hole to cut through"))
    }

    /// The hole that the section is cut through, and the grooves that it may cross.
    fn cut(&self) -> Option<(HoleId, Option<GroovePlan>)> {
        let hole = cut_through(&self.board, &self.layout, self.cut)?;
        Some((hole, grooves(&self.board, &self.layout)))
    }

    /// The work step by step, the section, and the plan of the filling.
    fn job(&self) -> Vec<Sheet> {
        let template = self.sheets(Kind::TemplatePdf).map(|(words, _)| words);
        let job = Job {
            board: &self.board,
            layout: &self.layout,
            findings: &self.findings,
            sums: &sums(&self.board, &self.layout),
            template: template.as_deref(),
        };
        let mut sheets = job_pages(&job, &self.stamp());
        let paper = paper_size(self.board.template.paper);
        let section = self.cut().and_then(|(hole, grooves)| {
            let (board, layout, stamp) = (&self.board, &self.layout, self.stamp());
            section_page(board, layout, grooves.as_ref(), hole, paper.width, &stamp)
        });
        sheets.extend(section.map(|sheet| sheet.on_paper(paper)));
        sheets.extend(self.filling());
        sheets
    }

    fn filling(&self) -> Vec<Sheet> {
        pour(&self.board, &self.layout).map_or_else(Vec::new, |pour| {
            filling_pages(&self.board, &self.layout, &pour, &self.stamp())
        })
    }

    fn pdf_options(&self, layers: bool) -> PdfOptions {
        PdfOptions {
            title: self.board.title.clone(),
            creator: "Ringwright".into(),
            created: Some(Date {
                year: self.moment.year,
                month: self.moment.month,
                day: self.moment.day,
                hour: 0,
                minute: 0,
            }),
            layers,
        }
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
