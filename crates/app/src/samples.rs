//! The sample boards, which come with the program.

use board::{Board, read_board};

/// A sample board.
pub struct Sample {
    /// Its name in menus.
    pub title: &'static str,
    text: &'static str,
}

macro_rules! sample {
    ($title:literal, $file:literal) => {
        Sample {
            title: $title,
            text: include_str!(concat!("../../../assets/boards/", $file, ".json")),
        }
    };
}

/// The sample boards; the window opens on the first.
pub const SAMPLES: &[Sample] = &[
    sample!("Six lobes in walnut", "six-lobes"),
    sample!("Four arms in cherry, magnet pieces", "four-arms"),
    sample!("Travel ring for two, pegs", "two-ring"),
    sample!("Six-sided table board, inches", "six-polygon"),
    sample!("Eight at one ring, marbles", "eight-ring"),
    sample!("Three lobes in maple, pegs", "three-lobes"),
];

impl Sample {
    /// The board; the one every document starts from if the sample were broken, which a test rules out.
    pub fn board(&self) -> Board {
        read_board(self.text.as_bytes()).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use workshop::Workpiece;

    #[test]
    fn every_sample_reads_under_its_title_and_has_no_stop() {
        for sample in SAMPLES {
            let board = read_board(sample.text.as_bytes())
                .unwrap_or_else(|error| panic!("{}: {error}", sample.title));
            assert_eq!(board.title, sample.title);
            let workpiece = Workpiece::of(&board).unwrap();
            assert!(
                !workshop::stops(workpiece.findings()),
                "{}: {:#?}",
                sample.title,
                workpiece.findings()
            );
        }
    }

    #[test]
    fn the_first_sample_has_127_holes() {
        let workpiece = Workpiece::of(&SAMPLES[0].board()).unwrap();
        assert_eq!(workpiece.layout().holes.len(), 6 * (13 + 5 + 3) + 1);
    }
}
