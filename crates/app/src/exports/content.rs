//! What an export says, before it is bytes: what is previewed is what is written.

use board::{Board, BuildError, Layout, Marking};
use drawing::{Sheet, Stamp, Tiling, TilingError, paper_name, tiled_sheets, tiling, whole_sheet};
use export::{Date, DxfOptions, GcodeOptions, PdfOptions};
use workshop::hole_table;

use super::name::stem;
use super::{ExportError, Kind, Moment};
use crate::derived::Derived;

/// A board laid out, and the day: what every kind of file is made from.
#[derive(Debug, Clone)]
pub struct Source {
    board: Board,
    layout: Layout,
    tiling: Result<Tiling, TilingError>,
    moment: Moment,
}

/// What an export says.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Pages of one file.
    Pages(Vec<Sheet>),
    /// Drawings, each a file of its own, with what the file's name ends in.
    Drawings(Vec<(String, Sheet)>),
    /// Texts, each a file of its own, with what the file's name ends in.
    Texts(Vec<(String, Vec<u8>)>),
}

impl Content {
    /// How many pages or files there are to look at.
    pub const fn parts(&self) -> usize {
        match self {
            Self::Pages(sheets) => sheets.len(),
            Self::Drawings(drawings) => drawings.len(),
            Self::Texts(texts) => texts.len(),
        }
    }

    /// What one of them is called, counted from 0, and which of how many it is.
    pub fn name(&self, part: usize) -> String {
        let of =
            |what: &str, name: &str| format!("{what} {} of {}: {name}", part + 1, self.parts());
        match self {
            Self::Pages(sheets) => sheets.get(part).map(|sheet| of("page", &sheet.label)),
            Self::Drawings(drawings) => drawings.get(part).map(|(ending, _)| of("file", ending)),
            Self::Texts(texts) => texts.get(part).map(|(ending, _)| of("file", ending)),
        }
        .unwrap_or_default()
    }
}

impl Source {
    /// What files are made from, of a board that is laid out already.
    pub fn new(board: &Board, derived: &Derived, moment: Moment) -> Self {
        Self {
            board: board.clone(),
            layout: derived.layout.clone(),
            tiling: derived.tiling.clone(),
            moment,
        }
    }

    /// The same of a board that is yet to be laid out.
    ///
    /// # Errors
    /// [`BuildError`] where it cannot be.
    pub fn of(board: &Board, moment: Moment) -> Result<Self, BuildError> {
        let layout = board::layout(board)?;
        Ok(Self {
            tiling: tiling(board, &layout, None),
            board: board.clone(),
            layout,
            moment,
        })
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
        Ok(match kind {
            Kind::TemplatePdf => Content::Pages(self.tiled()?),
            Kind::TemplateSvg => {
                let named = |sheet: Sheet| (format!("template-{}.svg", sheet.label), sheet);
                Content::Drawings(self.tiled()?.into_iter().map(named).collect())
            }
            Kind::PlotPdf => Content::Pages(vec![self.plotted()?]),
            Kind::Svg => Content::Drawings(vec![("whole.svg".into(), self.whole())]),
            Kind::Dxf => Content::Drawings(vec![("whole.dxf".into(), self.circled())]),
            Kind::Csv => {
                let table = export::csv(&hole_table(&self.layout), self.board.units)?;
                Content::Texts(vec![("holes.csv".into(), table)])
            }
            Kind::Gcode => Content::Texts(self.programs()?),
        })
    }

    /// The files of a kind: their names and their bytes.
    ///
    /// # Errors
    /// As [`Self::content`], and where the format cannot hold it.
    pub fn files(&self, kind: Kind) -> Result<Vec<(String, Vec<u8>)>, ExportError> {
        let files = match self.content(kind)? {
            Content::Pages(sheets) => {
                let layers = kind == Kind::PlotPdf;
                let bytes = export::pdf(&sheets, &self.pdf_options(layers))?;
                vec![(pdf_ending(kind).to_owned(), bytes)]
            }
            Content::Drawings(drawings) => drawings
                .into_iter()
                .map(|(ending, sheet)| Ok((ending, self.drawn(kind, &sheet)?)))
                .collect::<Result<_, export::Error>>()?,
            Content::Texts(texts) => texts,
        };
        let named = |(ending, bytes): (String, Vec<u8>)| (self.file_name(&ending), bytes);
        Ok(files.into_iter().map(named).collect())
    }

    /// The names of the files of a kind; none where it cannot be made.
    pub fn file_names(&self, kind: Kind) -> Vec<String> {
        let endings = match (kind, &self.tiling) {
            (Kind::TemplatePdf | Kind::PlotPdf, _) => vec![pdf_ending(kind).to_owned()],
            (Kind::Svg, _) => vec!["whole.svg".into()],
            (Kind::Dxf, _) => vec!["whole.dxf".into()],
            (Kind::Csv, _) => vec!["holes.csv".into()],
            (Kind::TemplateSvg, Ok(tiling)) => {
                let named = |tile: &drawing::Tile| format!("template-{}.svg", tile.label());
                tiling.tiles.iter().map(named).collect()
            }
            (Kind::TemplateSvg, Err(_)) => Vec::new(),
            (Kind::Gcode, _) => {
                let programs = self.programs().unwrap_or_default();
                programs.into_iter().map(|(ending, _)| ending).collect()
            }
        };
        endings
            .iter()
            .map(|ending| self.file_name(ending))
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

    fn drawn(&self, kind: Kind, sheet: &Sheet) -> Result<Vec<u8>, export::Error> {
        if kind != Kind::Dxf {
            return Ok(export::svg(sheet)?.into_bytes());
        }
        let options = DxfOptions {
            units: self.board.units,
            ..DxfOptions::default()
        };
        Ok(export::dxf(sheet, options)?.into_bytes())
    }

    fn programs(&self) -> Result<Vec<(String, Vec<u8>)>, ExportError> {
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
            order: None,
        };
        let programs = export::gcode(&hole_table(&self.layout), &options)?;
        let named =
            |program: export::Program| (format!("{}.ngc", program.stem), program.text.into_bytes());
        Ok(programs.into_iter().map(named).collect())
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

/// What the name of a PDF of a kind ends in.
const fn pdf_ending(kind: Kind) -> &'static str {
    match kind {
        Kind::PlotPdf => "whole.pdf",
        _ => "template.pdf",
    }
}
