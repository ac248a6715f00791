//! The maker's printers and their measurements: kept for all boards, in a file of their own.
//!
//! A file that cannot be read is left alone: changes then last until the window is closed.

mod file;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};
use workshop::Correction;
use workshop::{PrintFault, PrintReadings, PrintScale, print_scale};

use crate::host::Host;

/// A printer, and the measurements of its test sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Printer {
    /// The maker's name for it.
    pub name: String,
    /// The lengths measured.
    #[serde(rename = "measured")]
    pub readings: PrintReadings,
}

impl Printer {
    /// The correction that the readings ask for.
    ///
    /// # Errors
    /// Every [`PrintFault`] of the readings.
    pub fn scale(&self) -> Result<PrintScale, Vec<PrintFault>> {
        print_scale(&self.readings)
    }
}

/// Why a printer has no correction.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PrinterError {
    /// The file of the printers cannot be read.
    #[error("{0}")]
    Unreadable(String),
    /// No printer has that name.
    #[error("there is no printer named \"{name}\"; {}", listed(.known))]
    Unknown {
        /// The requested name.
        name: String,
        /// The names that there are.
        known: Vec<String>,
    },
    /// Its readings make no sense.
    #[error("printer \"{name}\" has no correction: {}", fault_words(.faults))]
    Senseless {
        /// Its name.
        name: String,
        /// The faults of them.
        faults: Vec<PrintFault>,
    },
}

fn listed(names: &[String]) -> String {
    match names {
        [] => "none is known yet: measure one in the window, under Template".into(),
        names => format!("known are {}", names.join(", ")),
    }
}

fn fault_words(faults: &[PrintFault]) -> String {
    let words: Vec<_> = faults.iter().map(ToString::to_string).collect();
    words.join("; ")
}

/// All printers, and the one that is printed on.
#[derive(Debug, Clone, PartialEq, Default)]
struct Known {
    printers: Vec<Printer>,
    /// The name of the one that is printed on.
    chosen: Option<String>,
}

/// The maker's printers.
#[derive(Debug, Clone, Default)]
pub struct Printers {
    known: Known,
    /// The state of the file, or the one last tried.
    kept: Known,
    /// Why the file cannot be read, and must be left alone.
    fault: Option<String>,
}

impl Printers {
    /// The most letters of a name.
    pub const LONGEST_NAME: usize = 40;
    /// The most printers.
    pub const MOST: usize = 100;

    /// The printers of the maker's file; none where there is no file.
    pub fn load(host: &dyn Host) -> Self {
        match file::read(host) {
            Ok(known) => Self {
                kept: known.clone(),
                known,
                fault: None,
            },
            Err(error) => Self {
                fault: Some(error.to_string()),
                ..Self::default()
            },
        }
    }

    /// Why the maker's file could not be read, if it could not.
    pub fn fault(&self) -> Option<&str> {
        self.fault.as_deref()
    }

    /// Writes the file if anything has changed; a sentence where that went wrong, which the next change tries again.
    pub fn keep(&mut self, host: &dyn Host) -> Option<String> {
        if self.fault.is_some() || self.known == self.kept {
            return None;
        }
        self.kept = self.known.clone();
        let failed = file::write(host, &self.known).err()?;
        Some(format!("the printers are not kept: {failed}"))
    }

    /// Every printer, in the order in which they were added.
    pub fn all(&self) -> &[Printer] {
        &self.known.printers
    }

    /// The printer that is printed on.
    pub fn chosen(&self) -> Option<&Printer> {
        let chosen = self.known.chosen.as_ref()?;
        self.all().iter().find(|printer| printer.name == *chosen)
    }

    /// The readings of the printer that is printed on.
    pub fn readings_mut(&mut self) -> Option<&mut PrintReadings> {
        self.chosen_mut().map(|printer| &mut printer.readings)
    }

    /// Prints on the printer of a name, or on none that is known.
    pub fn choose(&mut self, name: Option<&str>) {
        self.known.chosen = name.map(str::to_owned);
    }

    /// Adds a printer with a name of the program's, and prints on it.
    pub fn add(&mut self, readings: PrintReadings) {
        if self.all().len() >= Self::MOST {
            return;
        }
        let name = (1..=self.all().len() + 1)
            .map(|count| match count {
                1 => "Printer".to_owned(),
                count => format!("Printer {count}"),
            })
            .find(|name| self.is_free(name))
            .unwrap_or_default();
        self.known.chosen = Some(name.clone());
        self.known.printers.push(Printer { name, readings });
    }

    /// Gives the printer that is printed on another name.
    ///
    /// # Errors
    /// A sentence where the name is empty, too long, or another printer's.
    pub fn rename(&mut self, name: &str) -> Result<(), String> {
        let name = name.trim();
        if self.chosen().is_none_or(|printer| printer.name == name) {
            return Ok(());
        }
        sound_name(name)?;
        if !self.is_free(name) {
            return Err(format!("another printer is named \"{name}\" already"));
        }
        if let Some(printer) = self.chosen_mut() {
            name.clone_into(&mut printer.name);
        }
        self.choose(Some(name));
        Ok(())
    }

    /// Forgets the printer that is printed on.
    pub fn remove(&mut self) {
        if let Some(chosen) = self.known.chosen.take() {
            self.known.printers.retain(|printer| printer.name != chosen);
        }
    }

    /// The correction for the printer that is printed on; none without one, and where its readings make no sense.
    pub fn correction(&self) -> Option<Correction> {
        let printer = self.chosen()?;
        corrected(printer).ok()
    }

    /// The correction for the printer of a name.
    ///
    /// # Errors
    /// [`PrinterError`] for an unknown name, or if its readings make no sense.
    pub fn named(&self, name: &str) -> Result<Correction, PrinterError> {
        if let Some(fault) = &self.fault {
            return Err(PrinterError::Unreadable(fault.clone()));
        }
        let found = self.all().iter().find(|printer| printer.name == name);
        let printer = found.ok_or_else(|| PrinterError::Unknown {
            name: name.into(),
            known: self
                .all()
                .iter()
                .map(|printer| printer.name.clone())
                .collect(),
        })?;
        corrected(printer)
    }

    fn chosen_mut(&mut self) -> Option<&mut Printer> {
        let chosen = self.known.chosen.as_ref()?;
        let mut printers = self.known.printers.iter_mut();
        printers.find(|printer| printer.name == *chosen)
    }

    fn is_free(&self, name: &str) -> bool {
        self.all().iter().all(|printer| printer.name != name)
    }
}

fn corrected(printer: &Printer) -> Result<Correction, PrinterError> {
    let senseless = |faults| PrinterError::Senseless {
        name: printer.name.clone(),
        faults,
    };
    Ok(Correction {
        printer: printer.name.clone(),
        print: printer.scale().map_err(senseless)?.correction,
    })
}

/// Whether a name can stand on a sheet and be typed on a command line.
fn sound_name(name: &str) -> Result<(), String> {
    if name.is_empty() {
        return Err("a printer needs a name".into());
    }
    if name.chars().any(char::is_control) {
        return Err("a name has no line breaks and no other signs that cannot be seen".into());
    }
    let letters = name.chars().count();
    if letters > Printers::LONGEST_NAME {
        let most = Printers::LONGEST_NAME;
        return Err(format!(
            "the name has {letters} letters; use {most} or fewer"
        ));
    }
    Ok(())
}
