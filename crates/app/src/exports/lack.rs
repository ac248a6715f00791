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
}

impl Lack {
    fn of(field: &'static Field, words: impl Into<String>) -> Option<Self> {
        let place = place_of(field)?;
        Some(Self {
            words: words.into(),
            spot: place.into(),
        })
    }
}

impl Source {
    /// Everything that a kind needs and the board does not have; empty where it can be made, and where what is wrong is no lack.
    pub fn lacks(&self, kind: Kind) -> Vec<Lack> {
        let board = self.board();
        match kind {
            Kind::Gcode if board.machine.is_some() => self.unsettled(),
            _ if kind.missing(board).is_some() => planned_at(kind).into_iter().collect(),
            _ => Vec::new(),
        }
    }

    /// Speeds and feeds that are not typed yet.
    fn unsettled(&self) -> Vec<Lack> {
        let Some(machine) = &self.board().machine else {
            return Vec::new();
        };
        let mut lacks = Vec::new();
        for (diameter, bottom) in self.workpiece().hole_table().bits() {
            let bit = machine.bits.iter().find(|bit| bit.drills(diameter, bottom));
            let size = show_setting(diameter, self.board().units);
            let name = format!("{size} {}", bottom.label());
            for (field, value) in [
                (&field::BIT_SPEED, bit.and_then(|bit| bit.speed)),
                (&field::BIT_FEED, bit.and_then(|bit| bit.feed)),
            ] {
                if value.is_none() {
                    let spot = Spot {
                        section: Section::Machine,
                        caption: Some(field.label(0)),
                        part: Some(name.clone()),
                    };
                    let words = format!("{} of the {name} bit", field.label(0));
                    lacks.push(Lack { words, spot });
                }
            }
        }
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
                let lack = Lack::of(field, field.label(0) + of);
                lacks.extend(lack.filter(|_| is_open));
            }
        }
        lacks
    }
}

/// Where the part is planned that a kind is made for.
fn planned_at(kind: Kind) -> Option<Lack> {
    match kind {
        Kind::Gcode => Lack::of(&field::MACHINE, "Drill by machine"),
        Kind::Router => Lack::of(&field::ROUTER, "Make router template"),
        Kind::Sector => Lack::of(&field::SECTOR_JIG, "Make one-player jig"),
        Kind::Filling => Lack::of(&field::FILLING, "Fill bores with resin"),
        Kind::Finish => Some(Lack {
            words: "Finish coats".into(),
            spot: Spot {
                section: Section::Coats,
                caption: None,
                part: None,
            },
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
