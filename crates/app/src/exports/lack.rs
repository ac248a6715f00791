//! Numbers and parts that an export needs and a board lacks, each with the place where it is typed.

use board::{Field, field, show_setting};

use super::{Kind, Source};
use crate::places::{Spot, place_of};
use crate::section::Section;

/// Something that an export needs and the board does not have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// Its name, as in "Plunge feed of the 12 mm Forstner bit".
    pub words: String,
    /// Where it is typed or planned.
    pub spot: Spot,
    /// Paths and values that bring it, as a command sets them; where only the maker knows the number, its value is a word in capitals.
    pub settings: Vec<(String, String)>,
}

/// The words for numbers that only the maker knows.
const RPM: &str = "RPM";
const FEED: &str = "FEED";

impl Lack {
    fn of(field: &'static Field, words: impl Into<String>, value: &str) -> Option<Self> {
        let place = place_of(field)?;
        Some(Self {
            words: words.into(),
            spot: place.into(),
            settings: vec![(field.path_of(0), value.into())],
        })
    }
}

impl Source {
    /// Everything that a kind needs and the board does not have; empty where it can be made, and where the fault is another one.
    pub fn lacks(&self, kind: Kind) -> Vec<Lack> {
        let board = self.board();
        match kind {
            Kind::Gcode if board.machine.is_some() => {
                let (bits, runs) = (self.unsettled_bits(), self.unsettled_runs());
                bits.into_iter().chain(runs).collect()
            }
            _ if kind.missing(board).is_some() => planned_at(kind).into_iter().collect(),
            _ => Vec::new(),
        }
    }

    /// Speeds and feeds of bits that are not typed yet.
    fn unsettled_bits(&self) -> Vec<Lack> {
        let Some(machine) = &self.board().machine else {
            return Vec::new();
        };
        let mut lacks = Vec::new();
        // Bits that are not listed yet come after those that are.
        let mut count = machine.bits.len();
        for (diameter, bottom) in self.workpiece().hole_table().bits() {
            let its = |bit: &board::BitRun| bit.drills(diameter, bottom);
            let listed = machine.bits.iter().position(its);
            let bit = listed.and_then(|at| machine.bits.get(at));
            let entry = listed.unwrap_or(count);
            count += usize::from(listed.is_none());
            let mut begun = match listed {
                Some(_) => Vec::new(),
                None => vec![
                    (field::BIT_DIAMETER.path_of(entry), format!("{diameter}mm")),
                    (field::BIT_BOTTOM.path_of(entry), bottom.id().to_owned()),
                ],
            };
            let size = show_setting(diameter, self.board().units);
            let name = format!("{size} {}", bottom.label());
            for (field, word, value) in [
                (&field::BIT_SPEED, RPM, bit.and_then(|bit| bit.speed)),
                (&field::BIT_FEED, FEED, bit.and_then(|bit| bit.feed)),
            ] {
                if value.is_none() {
                    let mut settings = core::mem::take(&mut begun);
                    settings.push((field.path_of(entry), word.into()));
                    let spot = Spot {
                        section: Section::Machine,
                        caption: Some(field.label(0)),
                        part: Some(name.clone()),
                    };
                    let words = format!("{} of the {name} bit", field.label(0));
                    lacks.push(Lack {
                        words,
                        spot,
                        settings,
                    });
                }
            }
        }
        lacks
    }

    /// Speeds and feeds that are not typed yet, of what is milled.
    fn unsettled_runs(&self) -> Vec<Lack> {
        let Some(machine) = &self.board().machine else {
            return Vec::new();
        };
        let mut lacks = Vec::new();
        let edge = machine.edge.map(|edge| edge.run());
        let edge_fields = [&field::EDGE_SPEED, &field::EDGE_FEED, &field::EDGE_PLUNGE];
        let groove = machine.groove.filter(|_| self.board().grooves.is_some());
        let groove_fields = [
            &field::GROOVE_SPEED,
            &field::GROOVE_FEED,
            &field::GROOVE_PLUNGE,
        ];
        for (run, fields, of) in [
            (edge, edge_fields, " for the edge"),
            (groove, groove_fields, ""),
        ] {
            let Some(run) = run else { continue };
            for (field, value) in fields.into_iter().zip([run.speed, run.feed, run.plunge]) {
                let is_open = value.is_none();
                let is_speed = [&field::EDGE_SPEED, &field::GROOVE_SPEED].contains(&field);
                let word = if is_speed { RPM } else { FEED };
                let lack = Lack::of(field, field.label(0) + of, word);
                lacks.extend(lack.filter(|_| is_open));
            }
        }
        lacks
    }
}

/// The value that plans a part.
const PLANNED: &str = "default";

/// Where the part is planned that a kind is made for.
fn planned_at(kind: Kind) -> Option<Lack> {
    match kind {
        Kind::Gcode => Lack::of(&field::MACHINE, "Drill by machine", PLANNED),
        Kind::Router => Lack::of(&field::ROUTER, "Make router template", PLANNED),
        Kind::Sector => Lack::of(&field::SECTOR_JIG, "Make one-player jig", PLANNED),
        Kind::Filling => Lack::of(&field::FILLING, "Fill holes with resin", PLANNED),
        Kind::Finish => Some(Lack {
            words: "Finish coats".into(),
            spot: Spot {
                section: Section::Coats,
                caption: None,
                part: None,
            },
            // Which coats only the maker can say.
            settings: Vec::new(),
        }),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exports::Moment;
    use board::{BitRun, Board, EdgeRun, Machine};

    fn lacks(board: &Board, kind: Kind) -> Vec<String> {
        let moment = Moment {
            year: 2026,
            month: 11,
            day: 29,
        };
        let source = Source::of(board, moment).unwrap();
        let lacks = source.lacks(kind);
        lacks.into_iter().map(|lack| lack.words).collect()
    }

    #[test]
    fn every_speed_and_feed_that_is_missing_is_named_at_once() {
        let mut board = Board::default();
        assert_eq!(lacks(&board, Kind::Gcode), ["Drill by machine"]);
        let bore = board.bores.track;
        let machine = Machine {
            edge: Some(EdgeRun::default()),
            ..Machine::default()
        };
        board.machine = Some(machine);
        assert_eq!(
            lacks(&board, Kind::Gcode),
            [
                "Drill speed of the 12 mm Forstner bit",
                "Plunge feed of the 12 mm Forstner bit",
                "Cutter speed for the edge",
                "Feed along for the edge",
                "Feed down for the edge",
            ]
        );
        let bit = BitRun {
            speed: Some(1500.0),
            feed: Some(200.0),
            ..BitRun::unsettled(bore.diameter, bore.bottom)
        };
        board.machine = Some(Machine {
            bits: vec![bit],
            ..Machine::default()
        });
        assert!(lacks(&board, Kind::Gcode).is_empty());
        assert!(lacks(&board, Kind::TemplatePdf).is_empty());
    }

    #[test]
    fn what_can_be_planned_for_is_linked_wherever_a_kind_is_missing() {
        let board = Board::default();
        for kind in Kind::ALL {
            let is_missing = kind.missing(&board).is_some();
            assert_eq!(lacks(&board, kind).is_empty(), !is_missing, "{kind:?}");
        }
    }
}
