//! The jig sheet: the settings for drilling on a pin against a stop, with dividers, or with an index plate.
//!
//! Its content is worked out by `workshop::jig_sheet`; this module puts it into words and tables. Settings and steps are in the
//! order of the work plan: the pin's hole, radii, plate or dividers, the holes, the circle, and a playing hole at the center
//! last.

use board::{
    Board, DrillingMethod, DrillingOrder, HoleId, Measure, Units, show_number, show_setting,
};
use workshop::{
    HoleRow, JIG_CAUTIONS, JigSheet, Method, RadiusHole, Task, WorkPlan, Workpiece, exact_divisions,
};

use crate::cautions::cautions;
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, template_pages};

/// The jig sheet of a board, on the paper of its template: the pin's hole, the radii to set, the errors of the maker's index
/// plates, the settings of dividers, the holes in drilling order, the circle, and a table of all holes by radius.
///
/// Lengths are in the board's unit, bearings in degrees clockwise from player 1's axis.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, jig_pages};
/// use workshop::{Workpiece, jig_sheet};
///
/// let workpiece = Workpiece::of(&Board::default())?;
/// let jig = jig_sheet(&workpiece);
/// let sheets = jig_pages(&workpiece, &jig, &Stamp::default());
/// assert!(sheets.iter().all(|sheet| sheet.label.starts_with("jig sheet")));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn jig_pages(workpiece: &Workpiece, jig: &JigSheet, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let words = Says {
        units: board.units,
        jig,
    };
    let head = Head::of("Jig sheet", "jig sheet", workpiece, stamp);
    let mut blocks = vec![
        Block::Words(
            "Bearings run clockwise from player 1's axis, radii from the center pin to the middle of the hole.".into(),
        ),
    ];
    blocks.extend(cautions(&JIG_CAUTIONS));
    let by_hand = by_hand(workpiece);
    let plan = by_hand.as_ref().unwrap_or(workpiece).work_plan();
    blocks.extend(operations(plan, &[Task::PinHole, Task::PinBlock]));
    blocks.extend(words.radii());
    blocks.extend(words.plates());
    blocks.extend(words.dividers());
    blocks.extend(words.order(board.order, plan.has(Task::CenterBore)));
    blocks.extend(words.circle(board));
    blocks.extend(operations(
        plan,
        &[Task::Corners, Task::Circle, Task::PinRings],
    ));
    blocks.extend(operations(plan, &[Task::CenterBore]));
    blocks.extend(words.holes());
    template_pages(board, &head, &blocks)
}

/// The board as it is drilled on the pin, where its own plan leaves drilling to a machine: the steps of a sheet for handwork
/// must not name programs.
fn by_hand(workpiece: &Workpiece) -> Option<Workpiece> {
    if workpiece.work_plan().method != Method::Machine {
        return None;
    }
    let board = Board {
        method: DrillingMethod::Pivot,
        ..workpiece.board().clone()
    };
    Workpiece::of(&board).ok()
}

/// Operations of the plan with boxes to tick, each under its name; tasks not in the plan are left out.
fn operations(plan: &WorkPlan, tasks: &[Task]) -> Vec<Block> {
    let all = tasks.iter().flat_map(|task| plan.of(*task));
    let both = all.flat_map(|operation| {
        let title = operation.task.title();
        [
            Block::Heading(title.into()),
            Block::Ticked(operation.work.clone()),
        ]
    });
    both.collect()
}

/// The most that a hole may be off where it is drilled by an index plate, mm: about 1/64 in, as far as a bit drifts; common
/// practice, no source.
const PLATE_ERROR: f64 = 0.4;

/// Builds the text of a jig sheet in one unit.
struct Says<'a> {
    /// The maker's unit.
    units: Units,
    /// The sheet to print.
    jig: &'a JigSheet,
}

impl Says<'_> {
    /// A length given in mm, in the maker's unit.
    fn length(&self, mm: f64) -> String {
        show_setting(mm, self.units)
    }

    /// A hole by its row in the table, from 0.
    fn hole(&self, row: usize) -> Option<&HoleRow> {
        self.jig.table.rows.get(row)
    }

    /// The name of the hole in a row; empty for a row that does not exist.
    fn name(&self, row: usize) -> String {
        self.hole(row)
            .map_or_else(String::new, |hole| hole.name.to_string())
    }

    /// The bit for a hole by size and bottom: "12 mm Forstner".
    fn bit(&self, hole: &HoleRow) -> String {
        format!("{} {}", self.length(hole.cutter()), hole.bottom.label())
    }

    /// The settings for sawing or routing the disc. The three distances are from the center of the pin, where a rule is laid;
    /// the tool determines which of them applies.
    fn circle(&self, board: &Board) -> Vec<Block> {
        let [near, middle, far] = self.jig.circle.disc.map(|mm| self.length(mm));
        let pin = self.length(board.jig.pin);
        let kerf = self.length(board.jig.kerf);
        let row = |to: &str, mm: String| vec![Cell::from(to), Cell::Words(mm)];
        vec![
            Block::Heading("Settings for the circle".into()),
            Block::Words(format!(
                "Pin of {pin}, cut {kerf} wide. The board is inside the cut: from the middle of the pin measure to the \
                 side of the blade or bit that is nearer to it."
            )),
            Block::Table(Table {
                columns: Column::all(&[("From the pin to", Align::Start), ("Set to", Align::End)]),
                rows: vec![
                    row(
                        "near side of the cut: the board's edge; the blank must reach this far",
                        near,
                    ),
                    row("middle of the cut, as for a router bit", middle),
                    row("far side of the cut", far),
                ],
            }),
        ]
    }

    /// Every radius with holes on it, from the inside out, with the number of divisions of a full turn that hits all of its
    /// bearings (none where no common plate does).
    fn radii(&self) -> Vec<Block> {
        let rows = self.jig.radii.iter().enumerate().map(|(at, radius)| {
            let bearings: Vec<f64> = radius.holes.iter().map(|hole| hole.bearing).collect();
            let divisions = if radius.mm > 0.0 {
                exact_divisions(&bearings)
            } else {
                Some(1)
            };
            let names: Vec<String> = radius
                .holes
                .iter()
                .map(|hole| self.name(hole.row))
                .collect();
            vec![
                Cell::Tick,
                Cell::Words((at + 1).to_string()),
                Cell::Words(self.length(radius.mm)),
                Cell::Words(radius.holes.len().to_string()),
                Cell::Words(divisions.map_or_else(|| "none".into(), |it| it.to_string())),
                Cell::Words(first_and_last(&names)),
            ]
        });
        vec![
            Block::Heading("Radii to set".into()),
            Block::Words(
                "Divisions: an index plate of so many, or of any multiple, hits every hole at that radius.".into(),
            ),
            Block::Table(Table {
                columns: Column::all(&[
                    ("", Align::Start),
                    ("No.", Align::End),
                    ("Radius", Align::End),
                    ("Holes", Align::End),
                    ("Divisions", Align::End),
                    ("First and last", Align::Start),
                ]),
                rows: rows.collect(),
            }),
        ]
    }

    /// The fit of index plates to the whole board: the fewest divisions that hit every bearing, and the errors of each plate.
    fn plates(&self) -> Vec<Block> {
        let exact = self.jig.divisions.map_or_else(
            || {
                format!(
                    "No index plate of up to {} divisions hits every bearing. The divisions for each radius are listed above; \
                     \"none\" has no plate either.",
                    workshop::MOST_DIVISIONS
                )
            },
            |divisions| match divisions {
                1 => "Any index plate hits every bearing.".into(),
                _ => format!(
                    "An index plate of {divisions} divisions, or of any multiple of {divisions}, hits every bearing."
                ),
            },
        );
        let mut blocks = vec![Block::Heading("Index plates".into()), Block::Words(exact)];
        let rows: Vec<Vec<Cell>> = self
            .jig
            .plates
            .iter()
            .map(|plate| {
                vec![
                    Cell::Words(plate.divisions.to_string()),
                    Cell::Words(self.miss(plate.worst)),
                    Cell::Words(self.name(plate.worst_row)),
                    Cell::Words(Measure::degrees(plate.turn).shown(self.units)),
                    Cell::Words(self.miss(plate.turned)),
                ]
            })
            .collect();
        if !rows.is_empty() {
            blocks.push(Block::Words(format!(
                "{} The table gives the error of each at its worst hole: with player 1's axis on a division, and with the board \
                 turned on the plate by the angle that makes it smallest.",
                self.plate_advice()
            )));
            blocks.push(Block::Table(Table {
                columns: Column::all(&[
                    ("Plate", Align::End),
                    ("Error", Align::End),
                    ("At hole", Align::Start),
                    ("Turned by", Align::End),
                    ("Error then", Align::End),
                ]),
                rows,
            }));
        }
        blocks
    }

    /// Whether one of the plates may be used at all.
    fn plate_advice(&self) -> String {
        let errors = self
            .jig
            .plates
            .iter()
            .map(|plate| plate.turned.min(plate.worst));
        if errors.fold(f64::INFINITY, f64::min) <= PLATE_ERROR {
            return "You need only one plate for the whole board.".into();
        }
        format!(
            "Do not drill by these plates: none comes within {} of every hole. Lay the holes out with the template.",
            self.miss(PLATE_ERROR)
        )
    }

    /// A plate's error as text, to a hundredth of a millimeter or a thousandth of an inch: nobody drills more accurately than
    /// that.
    fn miss(&self, mm: f64) -> String {
        match self.units {
            Units::Mm => format!("{} mm", show_number(mm, 2)),
            Units::Inch(_) => format!("{}\"", show_number(mm / board::INCH, 3)),
        }
    }

    /// Chords to set dividers to, for circles with evenly spaced holes. An error in the setting adds up at each step, so the
    /// miss of the last step is given for an error of 0.1 mm.
    fn dividers(&self) -> Vec<Block> {
        let rows: Vec<Vec<Cell>> = self
            .jig
            .dividers
            .iter()
            .map(|ring| {
                vec![
                    Cell::Words(self.length(ring.radius)),
                    Cell::Words(ring.holes.to_string()),
                    Cell::Words(self.length(ring.setting)),
                    Cell::Words(self.miss(ring.closing)),
                ]
            })
            .collect();
        if rows.is_empty() {
            return Vec::new();
        }
        let off = self.miss(0.1);
        vec![
            Block::Heading("Dividers".into()),
            Block::Words(format!(
                "Evenly spaced holes on a circle, stepped with dividers: the setting, and the miss of the last step if the \
                 setting is {off} off."
            )),
            Block::Table(Table {
                columns: Column::all(&[
                    ("Radius", Align::End),
                    ("Holes", Align::End),
                    ("Set to", Align::End),
                    ("Closes within", Align::End),
                ]),
                rows,
            }),
        ]
    }

    /// The holes in drilling order, with a row for each new setting, to tick off.
    ///
    /// A playing hole at the center is drilled when the circle is cut; the table says so in its row.
    fn order(&self, order: DrillingOrder, center_last: bool) -> Vec<Block> {
        let all = &self.jig.order;
        let mut runs = self.runs(order);
        if let Some(last) = runs.last_mut().filter(|_| center_last) {
            last.set = format!("last, when the circle is cut: {}", last.set);
        }
        let rows = runs.iter().enumerate().map(|(at, run)| {
            let names: Vec<String> = run.holes.iter().map(|row| self.name(*row)).collect();
            vec![
                Cell::Tick,
                Cell::Words((at + 1).to_string()),
                Cell::Words(run.set.clone()),
                Cell::Words(names.join(" ")),
            ]
        });
        vec![
            Block::Heading(format!("Drilling order: {}", order.label())),
            Block::Words(format!(
                "Bit changes: {}. Depth-stop settings: {}. Radius settings: {}. Travel from the center pin through all holes: {}.",
                all.bits,
                all.depths,
                all.radii,
                self.length(all.travel.round())
            )),
            Block::Table(Table {
                columns: Column::all(&[
                    ("", Align::Start),
                    ("No.", Align::End),
                    ("Set", Align::Start),
                    ("Drill", Align::Start),
                ]),
                rows: rows.collect(),
            }),
        ]
    }

    /// Holes that are drilled one after the other with the same setting.
    ///
    /// The settings of a run are printed from the first one that differs: another bit requires setting the depth stop again
    /// even where the depth is the same, and another depth the radius. Ordered by travel, no radius is printed, as it changes
    /// at every hole.
    fn runs(&self, order: DrillingOrder) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::new();
        let mut before: Option<[String; 3]> = None;
        for &row in &self.jig.order.rows {
            let Some(hole) = self.hole(row) else { continue };
            let radius = self.length(hole.center.to_vec2().length());
            let set = [
                format!("bit {}", self.bit(hole)),
                format!("depth {}", self.length(hole.depth)),
                match order {
                    DrillingOrder::SetUps => format!("radius {radius}"),
                    DrillingOrder::Travel => String::new(),
                },
            ];
            // The center hole is drilled by itself: other work comes between it and the others.
            let last = before
                .replace(set.clone())
                .filter(|_| hole.name.id() != HoleId::CENTER);
            if last.as_ref() != Some(&set) {
                let new = |at: usize| last.as_ref().is_none_or(|last| last[at] != set[at]);
                let first = (0..3).find(|at| new(*at)).unwrap_or_default();
                let words = set.iter().skip(first).filter(|words| !words.is_empty());
                let set: Vec<&str> = words.map(String::as_str).collect();
                runs.push(Run {
                    set: set.join(", "),
                    holes: Vec::new(),
                });
            }
            if let Some(run) = runs.last_mut() {
                run.holes.push(row);
            }
        }
        runs
    }

    /// Every hole with radius and bearing; a radius is written once, at its first hole.
    fn holes(&self) -> Vec<Block> {
        let mut rows = Vec::with_capacity(self.jig.table.rows.len());
        for radius in &self.jig.radii {
            for (at, &RadiusHole { row, bearing }) in radius.holes.iter().enumerate() {
                let Some(hole) = self.hole(row) else { continue };
                let radius = self.length(radius.mm);
                let radius = if at == 0 {
                    Cell::Words(radius)
                } else {
                    Cell::Again(radius)
                };
                rows.push(vec![
                    Cell::Tick,
                    radius,
                    Cell::Words(bearing_words(bearing)),
                    Cell::Words(hole.name.to_string()),
                    Cell::Words(self.bit(hole)),
                    Cell::Words(self.length(hole.depth)),
                ]);
            }
        }
        vec![
            Block::Heading("Every hole, by radius and bearing".into()),
            Block::Table(Table {
                columns: Column::all(&[
                    ("", Align::Start),
                    ("Radius", Align::End),
                    ("Bearing", Align::End),
                    ("Hole", Align::Start),
                    ("Bit", Align::Start),
                    ("Depth", Align::End),
                ]),
                rows,
            }),
        ]
    }
}

/// A bearing with the same number of decimals in every row, so that the decimal points are aligned; 12 o'clock is never -0.
fn bearing_words(degrees: f64) -> String {
    let rounded = (degrees * 1000.0).round() / 1000.0;
    format!("{:.3}°", rounded + 0.0)
}

/// One setting, and the holes drilled with it.
struct Run {
    /// The settings, in words.
    set: String,
    /// Rows of the hole table, in order.
    holes: Vec<usize>,
}

/// The first and last of a list of names, which identify a ring as well as all of them would.
fn first_and_last(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first, .., last] => format!("{first} … {last}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use board::layout;
    use workshop::jig_sheet;

    fn words(board: &Board) -> Vec<String> {
        let workpiece = Workpiece::of(board).unwrap();
        let jig = jig_sheet(&workpiece);
        let sheets = jig_pages(&workpiece, &jig, &Stamp::default());
        let items = sheets.into_iter().flat_map(|sheet| sheet.marks);
        items
            .filter_map(|item| match item.shape {
                Shape::Text(text) => Some(text.words),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn a_bearing_just_before_12_o_clock_is_not_minus_0() {
        assert_eq!(bearing_words(-1e-14), "0.000°");
        assert_eq!(bearing_words(-0.5), "-0.500°");
        assert_eq!(bearing_words(359.9996), "360.000°");
    }

    #[test]
    fn every_hole_is_on_the_sheet_with_its_bearing() {
        let board = Board::default();
        let words = words(&board);
        for hole in layout(&board).unwrap().holes {
            let name = hole.name.to_string();
            assert!(words.contains(&name), "{name}");
        }
        // The 96 track spaces are 360/96 = 3.75° apart.
        assert!(words.iter().any(|words| words == "3.750°"));
    }

    /// The 24 holes of a ring lie on a plate of 24; on five lobes no plate comes near every hole, and none is to be used.
    #[test]
    fn plates_are_advised_against_where_none_comes_near_every_hole() {
        let mut board = Board {
            players: 6,
            spaces: 4,
            home: 0,
            start: 0,
            pitch: 40.0,
            ..Board::default()
        };
        let one = "You need only one plate for the whole board.";
        assert!(words(&board).join(" ").contains(one));
        (board.players, board.spaces) = (5, 14);
        board.pattern = geometry::Pattern::Lobes { depth: 0.15 };
        let all = words(&board).join(" ");
        assert!(!all.contains(one), "{all}");
        assert!(
            all.contains("Do not drill by these plates: none comes within 0.4 mm of every hole."),
            "{all}"
        );
    }

    #[test]
    fn settings_are_in_the_makers_unit() {
        let board = Board {
            units: Units::INCH,
            ..Board::default()
        };
        let all = words(&board).join(" ");
        assert!(!all.contains(" mm"), "{all}");
    }

    /// The sheet names the pin's hole before all others, and the playing hole after the circle.
    #[test]
    fn the_pin_comes_first_and_the_center_last_in_either_order() {
        for order in DrillingOrder::ALL {
            let board = Board {
                order,
                ..Board::default()
            };
            let all = words(&board).join(" ");
            let places = [
                "Hole for the pin",
                "Score a full circle",
                "Drill 6 mm across",
                "Drilling order",
                "last, when the circle is cut: bit 12 mm Forstner, depth 5 mm",
                "Sawing the corners off",
                "Cutting the circle",
                "Playing hole at the center",
            ]
            .map(|part| all.find(part).unwrap_or_else(|| panic!("{part} in {all}")));
            assert!(places.is_sorted(), "{places:?}");
        }
    }

    #[test]
    fn a_sheet_for_handwork_names_no_program() {
        let board = Board {
            machine: Some(board::Machine {
                edge: Some(board::EdgeRun::default()),
                ..board::Machine::default()
            }),
            ..Board::default()
        };
        let all = words(&board).join(" ");
        assert!(!all.contains("program") && !all.contains("X0"), "{all}");
        for part in [
            "Hole for the pin",
            "Cutting the circle",
            "Playing hole at the center",
            "last, when the circle is cut",
        ] {
            assert!(all.contains(part), "{part} in {all}");
        }
    }

    #[test]
    fn each_setting_is_printed_once_and_only_where_it_changes() {
        let mut board = Board::default();
        board.bores.start.depth = 7.0;
        let jig = jig_sheet(&Workpiece::of(&board).unwrap());
        let says = Says {
            units: Units::Mm,
            jig: &jig,
        };
        let runs = says.runs(DrillingOrder::SetUps);
        assert_eq!(runs.len() as u32, jig.order.radii);
        assert!(runs[0].set.starts_with("bit 12 mm"), "{}", runs[0].set);
        assert!(runs[1].set.starts_with("radius "), "{}", runs[1].set);
        let depths = runs.iter().filter(|run| run.set.starts_with("depth 7 mm"));
        assert_eq!(depths.count(), 1);
    }
}
