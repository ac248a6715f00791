//! The file of the printers: JSON with a format number.

use std::io::ErrorKind;
use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::{Known, Printer, Printers, sound_name};
use crate::files::FilesError;
use crate::host::Host;

/// The format number that this program writes, and the newest it reads.
const FORMAT: u32 = 1;
/// The name of the file in the folder of settings.
const NAME: &str = "printers.json";
/// The largest file that is read, in bytes; a printer takes a few hundred.
const LARGEST: u64 = 1024 * 1024;

/// Why the file is not read or written.
#[derive(Debug, thiserror::Error)]
pub enum PrintersFileError {
    /// The system has no folder for it.
    #[error("this system names no folder for settings")]
    NoFolder,
    /// It cannot be opened, read or written.
    #[error(transparent)]
    Files(#[from] FilesError),
    /// It is not JSON of printers.
    #[error("the printers cannot be read, {reason}; the file is left alone: {}", path.display())]
    Malformed {
        /// The fault, and its place.
        reason: String,
        /// The file.
        path: PathBuf,
    },
    /// A newer program wrote it.
    #[error(
        "the printers have format {found}, but this Ringwright reads formats up to {FORMAT}, so a newer one wrote them; the file is left alone: {}",
        path.display()
    )]
    Newer {
        /// Its format number.
        found: u32,
        /// The file.
        path: PathBuf,
    },
}

#[derive(Deserialize)]
struct Head {
    format: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Whole {
    format: u32,
    #[serde(default)]
    chosen: Option<String>,
    printers: Vec<Printer>,
}

/// The printers of the file; none where there is no file.
pub fn read(host: &dyn Host) -> Result<Known, PrintersFileError> {
    let Some(path) = place(host).filter(|path| host.exists(path)) else {
        return Ok(Known::default());
    };
    let bytes = match host.read(&path, LARGEST) {
        Err(FilesError::Read { reason, .. }) if reason.kind() == ErrorKind::NotFound => {
            return Ok(Known::default());
        }
        bytes => bytes?,
    };
    parse(&bytes, path)
}

fn parse(bytes: &[u8], path: PathBuf) -> Result<Known, PrintersFileError> {
    let malformed = |reason: String| PrintersFileError::Malformed {
        reason,
        path: path.clone(),
    };
    let broken = |error: serde_json::Error| malformed(error.to_string());
    let head: Head = serde_json::from_slice(bytes).map_err(broken)?;
    if head.format > FORMAT {
        let found = head.format;
        return Err(PrintersFileError::Newer { found, path });
    }
    if head.format == 0 {
        return Err(malformed("its format number is 0".into()));
    }
    let Whole {
        chosen, printers, ..
    } = serde_json::from_slice(bytes).map_err(broken)?;
    sound(&printers).map_err(malformed)?;
    Ok(Known { printers, chosen })
}

/// Names that can stand on a sheet, each of one printer alone.
fn sound(printers: &[Printer]) -> Result<(), String> {
    if printers.len() > Printers::MOST {
        return Err(format!("it has more than {} printers", Printers::MOST));
    }
    for (at, printer) in printers.iter().enumerate() {
        let name = printer.name.as_str();
        sound_name(name)?;
        let others = printers.iter().skip(at + 1);
        if others.into_iter().any(|other| other.name == name) {
            return Err(format!("two printers are named \"{name}\""));
        }
    }
    Ok(())
}

/// Writes the file whole.
pub fn write(host: &dyn Host, known: &Known) -> Result<(), PrintersFileError> {
    let path = place(host).ok_or(PrintersFileError::NoFolder)?;
    if let Some(folder) = path.parent() {
        host.make_folder(folder)?;
    }
    host.write(&path, text(known).as_bytes())?;
    Ok(())
}

fn text(known: &Known) -> String {
    let whole = Whole {
        format: FORMAT,
        chosen: known.chosen.clone(),
        printers: known.printers.clone(),
    };
    // Words, numbers and lists of them can always be written as JSON.
    let text = serde_json::to_string_pretty(&whole).unwrap_or_default();
    text + "\n"
}

fn place(host: &dyn Host) -> Option<PathBuf> {
    host.settings_folder().map(|folder| folder.join(NAME))
}
