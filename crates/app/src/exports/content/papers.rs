//! The papers of an order: for the shop the job sheet, plans, lists and sums; for the customer card and quote; and the calendar for both.

use std::sync::Arc;

use board::INCH;
use drawing::{
    Sheet, calendar_pages, card_sheet, costing_pages, filling_pages, finish_pages, job_pages,
    job_picture, lists_pages, quote_pages, repair_pages, section_page,
};
use picture::thumbnail;
use workshop::paper_size;

use super::super::ExportError;
use super::{Body, File, Source, file, pdf};

/// Pixels an inch of the picture on the job sheet: as fine as a laser printer's grays.
const THUMBNAIL: f64 = 300.0;

/// The ends of the names of the calendar's files.
pub(super) const CALENDAR: [&str; 3] = ["calendar.pdf", "calendar.ics", "calendar.csv"];

impl Source {
    /// The job sheet, its pages numbered through, with a picture of the board on the first.
    pub(super) fn job(&self) -> Result<Vec<File>, ExportError> {
        let sheets = self.numbered(self.job_sheets());
        let Some(room) = job_picture(&self.workpiece, &self.stamp()) else {
            return Ok(vec![pdf("job.pdf", sheets)]);
        };
        let pixels = (room.area.width() / INCH * THUMBNAIL).round() as u32;
        let picture = thumbnail(&self.workpiece, pixels, room.inset, &|| false)?;
        let body = Body::Illustrated(sheets, Arc::new((picture, room.area)));
        Ok(vec![file("job.pdf", body)])
    }

    /// The work step by step, the section, the plan of the filling, and the lists of what to buy and to cut.
    fn job_sheets(&self) -> Vec<Sheet> {
        let (workpiece, stamp) = (&self.workpiece, self.stamp());
        let mut sheets = job_pages(workpiece, &stamp);
        let paper = paper_size(self.board().template.paper);
        let section = self
            .cut()
            .and_then(|hole| section_page(workpiece, hole, paper.width, &stamp));
        sheets.extend(section.map(|sheet| sheet.on_paper(paper)));
        sheets.extend(filling_pages(workpiece, &stamp));
        sheets.extend(finish_pages(workpiece, &stamp));
        sheets.extend(calendar_pages(workpiece, &stamp));
        sheets.extend(lists_pages(workpiece, &stamp));
        sheets
    }

    /// The card for the customer, one sheet to fold.
    pub(super) fn card(&self) -> Vec<File> {
        let sheet = card_sheet(&self.workpiece, &self.stamp());
        vec![pdf("card.pdf", vec![sheet])]
    }

    /// The plan of the filling: what to mix, and in which batches.
    pub(super) fn filling(&self) -> Vec<File> {
        let sheets = filling_pages(&self.workpiece, &self.stamp());
        vec![pdf("filling.pdf", self.numbered(sheets))]
    }

    /// The plan of the finish: its coats, amounts and times.
    pub(super) fn finish(&self) -> Vec<File> {
        let sheets = finish_pages(&self.workpiece, &self.stamp());
        vec![pdf("finish.pdf", self.numbered(sheets))]
    }

    /// The pages of repairs: holes to plug and to drill again.
    pub(super) fn repair(&self) -> Vec<File> {
        let sheets = repair_pages(&self.workpiece, &self.stamp());
        vec![pdf("repair.pdf", self.numbered(sheets))]
    }

    /// Every sum of the bench, as a table and as JSON.
    pub(super) fn sums(&self) -> Result<Vec<File>, ExportError> {
        let sums = self.workpiece.sums();
        Ok(vec![
            file("sums.csv", Body::Text(export::sums_csv(sums)?)),
            file("sums.json", Body::Text(export::sums_json(sums)?)),
        ])
    }

    /// The offer to the customer, and the costing that stays in the shop, on paper and as a table.
    pub(super) fn quote(&self) -> Result<Vec<File>, ExportError> {
        let (workpiece, stamp) = (&self.workpiece, self.stamp());
        let table = export::costing_csv(workpiece.costing())?;
        Ok(vec![
            pdf("quote.pdf", self.numbered(quote_pages(workpiece, &stamp))),
            pdf(
                "costing.pdf",
                self.numbered(costing_pages(workpiece, &stamp)),
            ),
            file("costing.csv", Body::Text(table)),
        ])
    }

    /// The lists of what to buy and of what to cut: on paper together, and each as a table.
    pub(super) fn lists(&self) -> Result<Vec<File>, ExportError> {
        let workpiece = &self.workpiece;
        let to_buy = export::shopping_csv(&workpiece.costing().lines)?;
        let to_cut = export::cut_list_csv(workpiece.cut_list(), self.board().units)?;
        Ok(vec![
            pdf(
                "lists.pdf",
                self.numbered(lists_pages(workpiece, &self.stamp())),
            ),
            file("shopping.csv", Body::Text(to_buy)),
            file("cut-list.csv", Body::Text(to_cut)),
        ])
    }

    /// The work on its days: for the wall, for calendar programs, and for a spreadsheet.
    pub(super) fn calendar(&self) -> Result<Vec<File>, ExportError> {
        let workpiece = &self.workpiece;
        let calendar = workpiece.calendar().map_err(Clone::clone)?;
        let midnight = || format!("{}T00:00:00Z", self.moment).parse().ok();
        let stamp = self.stamp.or_else(midnight).unwrap_or_default();
        let [pages, ics, csv] = CALENDAR;
        let sheets = calendar_pages(workpiece, &self.stamp());
        let table = export::calendar_csv(calendar, workpiece.work_plan())?;
        Ok(vec![
            pdf(pages, self.numbered(sheets)),
            file(ics, Body::Text(export::ical(workpiece, calendar, stamp))),
            file(csv, Body::Text(table)),
        ])
    }
}
