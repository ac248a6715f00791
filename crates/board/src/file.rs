//! The document as a file: JSON with a format number.
//!
//! The layout of each format number is frozen once released; a file of an older number is read with the
//! structures of its time and brought up to date. A file of a newer number is refused and left alone.

use serde::{Deserialize, Serialize};

use crate::{Board, OutOfRange, out_of_range};

/// The format number that this program writes, and the newest it reads.
pub const FORMAT: u32 = 1;
/// The largest file that is read, in bytes; a board takes a few thousand.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;

/// Why a file is not read as a board.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FileError {
    /// Larger than any board.
    #[error(
        "the file has {bytes} bytes, over the {LARGEST_FILE} a board file may have; it is no board file"
    )]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// Nothing in it.
    #[error("the file is empty; it is no board file")]
    Empty,
    /// Not text.
    #[error("the file is no text: byte {at} is not UTF-8; it is no board file")]
    NotText {
        /// How many bytes are text before that.
        at: usize,
    },
    /// Ends in the middle.
    #[error("the file ends too early, at line {line}, column {column}; part of it is missing")]
    Truncated {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// Not JSON.
    #[error("the file is not JSON at line {line}, column {column}: {reason}")]
    NotJson {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader expected.
        reason: String,
    },
    /// JSON, but of no board.
    #[error("the file is JSON but no board file: it has no whole \"format\" number of 1 or more")]
    NoFormat,
    /// Written by a newer program.
    #[error(
        "the file has format {found}; this Ringwright reads formats up to {FORMAT}, so a newer one wrote it; nothing was changed"
    )]
    Newer {
        /// Its format number.
        found: u64,
    },
    /// A field that is missing, unknown, or of the wrong kind.
    #[error("the board file is wrong at line {line}, column {column}, in {field}: {reason}")]
    Field {
        /// The path to the field.
        field: String,
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong.
        reason: String,
    },
    /// Numbers outside their ranges.
    #[error("the board file has numbers that no board can have: {}", listed(.0))]
    OutOfRange(Vec<OutOfRange>),
}

fn listed(faults: &[OutOfRange]) -> String {
    let shown: Vec<String> = faults.iter().take(5).map(ToString::to_string).collect();
    let more = faults.len() - shown.len();
    let rest = if more > 0 {
        format!("; and {more} more")
    } else {
        String::new()
    };
    shown.join("; ") + &rest
}

/// The text of a board's file, ending in a line break; the same board gives the same text.
pub fn write_board(board: &Board) -> String {
    let file = Written {
        format: FORMAT,
        board,
    };
    // Nothing in a board can fail to be JSON: its keys are text, and serde_json writes any number.
    let mut text = serde_json::to_string_pretty(&file).unwrap_or_default();
    text.push('\n');
    text
}

/// Reads a board from the bytes of its file.
///
/// # Errors
/// [`FileError`] says what is wrong, and where.
///
/// ```
/// use board::{Board, read_board, write_board};
/// let board = Board::default();
/// assert_eq!(read_board(write_board(&board).as_bytes()), Ok(board));
/// ```
pub fn read_board(bytes: &[u8]) -> Result<Board, FileError> {
    let text = text_of(bytes)?;
    match format_of(text)? {
        0 => Err(FileError::NoFormat),
        1 => read_format_1(text),
        found => Err(FileError::Newer { found }),
    }
}

#[derive(Serialize)]
struct Written<'a> {
    format: u32,
    board: &'a Board,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Format1 {
    #[serde(rename = "format")]
    _format: u32,
    board: Board,
}

fn text_of(bytes: &[u8]) -> Result<&str, FileError> {
    if bytes.len() > LARGEST_FILE {
        return Err(FileError::TooLarge { bytes: bytes.len() });
    }
    let text = str::from_utf8(bytes).map_err(|error| FileError::NotText {
        at: error.valid_up_to(),
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        Err(FileError::Empty)
    } else {
        Ok(text)
    }
}

/// The format number, read before anything else is expected of the file.
fn format_of(text: &str) -> Result<u64, FileError> {
    let value: serde_json::Value = serde_json::from_str(text).map_err(|error| not_json(&error))?;
    value
        .get("format")
        .and_then(serde_json::Value::as_u64)
        .ok_or(FileError::NoFormat)
}

fn not_json(error: &serde_json::Error) -> FileError {
    let (line, column) = (error.line(), error.column());
    if error.is_eof() {
        return FileError::Truncated { line, column };
    }
    FileError::NotJson {
        line,
        column,
        reason: reason(error),
    }
}

/// The error's message in a maker's words, without the place, which is told apart.
fn reason(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let place = format!(" at line {} column {}", error.line(), error.column());
    let message = message.strip_suffix(&place).unwrap_or(&message);
    let mut plain: String = message.chars().take(300).collect();
    for (theirs, ours) in PLAIN_WORDS {
        plain = plain.replace(theirs, ours);
    }
    match plain.split_once("expected struct ") {
        Some((before, _)) => format!("{before}expected an object"),
        None => plain,
    }
}

/// What the JSON reader says in a programmer's words.
const PLAIN_WORDS: [(&str, &str); 9] = [
    ("invalid type: floating point", "wrong kind: number"),
    ("invalid type: integer", "wrong kind: number"),
    ("invalid type: map", "wrong kind: object"),
    ("invalid type: sequence", "wrong kind: list"),
    ("invalid type: string", "wrong kind: text"),
    ("invalid type", "wrong kind"),
    ("unknown variant", "unknown word"),
    ("expected u32", "expected a whole number of 0 or more"),
    ("expected f64", "expected a number"),
];

fn read_format_1(text: &str) -> Result<Board, FileError> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let file: Format1 = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let field = match error.path().to_string().as_str() {
            "." => "the outermost object".into(),
            path => path.into(),
        };
        let inner = error.into_inner();
        FileError::Field {
            field,
            line: inner.line(),
            column: inner.column(),
            reason: reason(&inner),
        }
    })?;
    let faults = out_of_range(&file.board);
    if faults.is_empty() {
        Ok(file.board)
    } else {
        Err(FileError::OutOfRange(faults))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Bore, Bores, Bottom, Build, Center, Change, Coat, CoatKind, Edit, Filling, FlawKind,
        FlawShape, Grooves, Marking, Mix, MixedBy, Panel, Paper, Pocket, Recess, RecessShape,
        Rings, Router, ScrewCircle, Stock, StockFlaw, StockOutline, Template, Tenons, Units,
    };
    use geometry::{Pattern, PocketShape};
    use proptest::prelude::*;

    fn edited(change: &str, with: &str) -> Result<Board, FileError> {
        let text = write_board(&Board::default());
        assert!(text.contains(change), "{change} is not in the file");
        read_board(text.replacen(change, with, 1).as_bytes())
    }

    #[test]
    fn a_byte_order_mark_does_no_harm() {
        let text = format!("\u{feff}{}", write_board(&Board::default()));
        assert_eq!(read_board(text.as_bytes()), Ok(Board::default()));
    }

    #[test]
    fn the_format_number_comes_first() {
        assert!(write_board(&Board::default()).starts_with("{\n  \"format\": 1,"));
    }

    #[test]
    fn a_newer_file_is_refused_as_newer() {
        assert_eq!(
            edited("\"format\": 1", "\"format\": 7"),
            Err(FileError::Newer { found: 7 })
        );
        // Also where a newer format has fields that this program does not know.
        assert_eq!(
            read_board(b"{\"format\": 2, \"boards\": []}"),
            Err(FileError::Newer { found: 2 })
        );
    }

    #[test]
    fn a_file_without_a_sound_format_is_no_board_file() {
        for text in [
            "{}",
            "[]",
            "3",
            "null",
            "{\"format\": \"1\"}",
            "{\"format\": 0}",
            "{\"format\": -1}",
            "{\"format\": 1.5}",
        ] {
            assert_eq!(
                read_board(text.as_bytes()),
                Err(FileError::NoFormat),
                "{text}"
            );
        }
        assert_eq!(read_board(b" \n"), Err(FileError::Empty));
    }

    #[test]
    fn every_beginning_of_a_file_ends_too_early() {
        let text = write_board(&Board::default());
        for end in (1..text.trim_end().len()).step_by(7) {
            assert!(
                matches!(
                    read_board(&text.as_bytes()[..end]),
                    Err(FileError::Truncated { .. })
                ),
                "cut at {end}"
            );
        }
    }

    #[test]
    fn a_wrong_field_is_named_with_its_place() {
        let Err(FileError::Field {
            field,
            line,
            reason,
            ..
        }) = edited("\"pitch_mm\": 19.0", "\"pitch_mm\": \"wide\"")
        else {
            panic!("was read")
        };
        assert_eq!(field, "board.pitch_mm");
        assert!(line > 5 && reason.contains("wide"), "{line}: {reason}");
        let unknown = edited("\"pitch_mm\"", "\"pitsch_mm\"")
            .unwrap_err()
            .to_string();
        assert!(unknown.contains("pitsch_mm"), "{unknown}");
        let twice = edited(
            "\"pitch_mm\": 19.0",
            "\"pitch_mm\": 19.0, \"pitch_mm\": 20.0",
        )
        .unwrap_err()
        .to_string();
        assert!(twice.contains("duplicate"), "{twice}");
    }

    #[test]
    fn what_is_wrong_is_said_in_a_makers_words() {
        for (players, said) in [
            ("-3", "whole number of 0 or more"),
            ("6.5", "wrong kind: number `6.5`"),
            ("\"6\"", "wrong kind: text"),
            ("{}", "wrong kind: object"),
        ] {
            let error = edited("\"players\": 6", &format!("\"players\": {players}"));
            let error = error.unwrap_err().to_string();
            assert!(error.contains("in board.players"), "{error}");
            assert!(error.contains(said), "{error}");
        }
        let word = edited("\"ring\"", "\"hexagon\"").unwrap_err().to_string();
        assert!(word.contains("unknown word `hexagon`"), "{word}");
        let list = read_board(b"{\"format\": 1, \"board\": []}");
        assert!(
            list.unwrap_err()
                .to_string()
                .ends_with("expected an object")
        );
        let outermost = edited("\"format\": 1,", "\"format\": 1, \"format\": 1,");
        let outermost = outermost.unwrap_err().to_string();
        assert!(
            outermost.contains("in the outermost object: duplicate"),
            "{outermost}"
        );
    }

    #[test]
    fn numbers_out_of_range_are_all_named() {
        let text = write_board(&Board::default())
            .replace("\"pitch_mm\": 19.0", "\"pitch_mm\": -19.0")
            .replace("\"thickness_mm\": 20.0", "\"thickness_mm\": 2000.0");
        let error = read_board(text.as_bytes()).unwrap_err();
        let said = error.to_string();
        assert!(matches!(error, FileError::OutOfRange(faults) if faults.len() == 2));
        assert!(
            said.contains("pitch") && said.contains("thickness"),
            "{said}"
        );
        assert!(edited("\"pitch_mm\": 19.0", "\"pitch_mm\": 1e999").is_err());
    }

    #[test]
    fn a_file_without_work_at_the_bench_has_none_planned() {
        let text = write_board(&Board::default())
            .replace("\"recess\": null,", "")
            .replace("\"filling\": null,", "")
            .replace("\"finish\": [],", "");
        assert!(!text.contains("recess") && !text.contains("filling") && !text.contains("finish"));
        assert_eq!(read_board(text.as_bytes()), Ok(Board::default()));
    }

    #[test]
    fn rubbish_is_refused_without_harm() {
        assert!(matches!(
            read_board(&[0x7b, 0xff, 0xfe]),
            Err(FileError::NotText { at: 1 })
        ));
        assert!(matches!(
            read_board(&vec![b' '; LARGEST_FILE + 1]),
            Err(FileError::TooLarge { .. })
        ));
        assert!(matches!(
            read_board("[".repeat(100_000).as_bytes()),
            Err(FileError::NotJson { .. })
        ));
    }

    fn patterns() -> impl Strategy<Value = Pattern> {
        prop_oneof![
            Just(Pattern::Ring),
            (0.0..0.35).prop_map(|depth| Pattern::Lobes { depth }),
            Just(Pattern::Polygon),
            (3_u32..9).prop_map(|across| Pattern::Arms { across }),
        ]
    }

    fn bores() -> impl Strategy<Value = Bore> {
        let bottom = prop::sample::select(&Bottom::ALL[..]);
        (0.1..500.0_f64, 0.0..500.0_f64, bottom).prop_map(|(diameter, depth, bottom)| Bore {
            diameter,
            depth,
            bottom,
        })
    }

    fn centers() -> impl Strategy<Value = Center> {
        let size = 0.1..100.0_f64;
        prop_oneof![
            Just(Center::Nothing),
            (size.clone(), size.clone())
                .prop_map(|(diameter, depth)| Center::Pivot { diameter, depth }),
            (bores(), size).prop_map(|(bore, pilot)| Center::Hole { bore, pilot }),
        ]
    }

    fn edits() -> impl Strategy<Value = Vec<Edit>> {
        let offset = || -5000.0..5000.0_f64;
        let change = prop_oneof![
            (offset(), offset()).prop_map(|(u, v)| Change::Move { u, v }),
            Just(Change::Drop),
            bores().prop_map(|bore| Change::Bore { bore }),
            (offset(), offset(), bores()).prop_map(|(u, v, bore)| Change::Add { u, v, bore }),
        ];
        let hole = prop::sample::select(vec!["T2-7", "H1-1", "S6-4", "X1-12", "C"]);
        let edit = (hole, any::<bool>(), change).prop_map(|(hole, mirrored, change)| Edit {
            hole: hole.parse().unwrap(),
            mirrored,
            change,
        });
        prop::collection::vec(edit, 0..4)
    }

    fn pockets() -> impl Strategy<Value = Pocket> {
        let shapes = [
            PocketShape::Row,
            PocketShape::Arc,
            PocketShape::Block,
            PocketShape::Ring,
        ];
        let place = (
            prop::option::of(-180.0..180.0_f64),
            prop::option::of(0.0..900.0_f64),
        );
        (prop::sample::select(shapes.to_vec()), place).prop_map(|(shape, (bearing, radius))| {
            Pocket {
                shape,
                bearing,
                radius,
            }
        })
    }

    fn templates() -> impl Strategy<Value = Template> {
        let side = || 30.0..5000.0_f64;
        let paper = prop_oneof![
            prop::sample::select(vec![
                Paper::A4,
                Paper::A3,
                Paper::Letter,
                Paper::Legal,
                Paper::Tabloid
            ]),
            (side(), side()).prop_map(|(width, height)| Paper::Custom { width, height }),
        ];
        let marking = prop::sample::select(&Marking::ALL[..]);
        (paper, marking, any::<bool>()).prop_map(|(paper, marking, names)| Template {
            paper,
            marking,
            names,
            ..Template::default()
        })
    }

    fn stocks() -> impl Strategy<Value = Stock> {
        let place = || -20_000.0..20_000.0_f64;
        let corners = || prop::collection::vec([place(), place()], 0..9);
        let edge = || prop::collection::vec(0.0..500.0_f64, 0..6);
        let outline = prop_oneof![
            Just(StockOutline::Unknown),
            (1.0..20_000.0_f64, 1.0..20_000.0_f64, edge(), edge()).prop_map(
                |(length, width, lower, upper)| StockOutline::Slab {
                    length,
                    width,
                    lower,
                    upper
                }
            ),
            corners().prop_map(|corners| StockOutline::Corners { corners }),
        ];
        let shape = prop_oneof![
            (place(), place(), 0.1..5000.0_f64).prop_map(|(x, y, diameter)| FlawShape::Round {
                x,
                y,
                diameter
            }),
            corners().prop_map(|corners| FlawShape::Area { corners }),
        ];
        let kind = prop::sample::select(&FlawKind::ALL[..]);
        let flaw = (kind, shape).prop_map(|(kind, shape)| StockFlaw { kind, shape });
        let flaws = prop::collection::vec(flaw, 0..4);
        let middle = prop::option::of([place(), place()]);
        (outline, flaws, middle).prop_map(|(outline, flaws, place)| Stock {
            outline,
            flaws,
            place,
            ..Stock::default()
        })
    }

    fn panels() -> impl Strategy<Value = Panel> {
        let build = prop_oneof![
            Just(Build::Whole),
            Just(Build::Halves),
            (2_u32..=60).prop_map(|count| Build::Strips { count }),
            prop::collection::vec(-2500.0..2500.0_f64, 0..5).prop_map(|at| Build::Seams { at }),
        ];
        let tenons = prop::option::of(Just(Tenons::default()));
        (build, tenons).prop_map(|(build, tenons)| Panel {
            build,
            tenons,
            ..Panel::default()
        })
    }

    fn recesses() -> impl Strategy<Value = Recess> {
        let side = || 1.0..5000.0_f64;
        let shape = prop_oneof![
            side().prop_map(|diameter| RecessShape::Round { diameter }),
            (side(), side(), 0.0..2500.0_f64).prop_map(|(length, width, corner)| {
                RecessShape::Straight {
                    length,
                    width,
                    corner,
                }
            }),
        ];
        let place = || -2500.0..2500.0_f64;
        let deep = || 0.0..500.0_f64;
        (shape, [place(), place()], deep(), deep(), 0_u32..=1000).prop_map(
            |(shape, at, depth, lid, spare)| Recess {
                shape,
                at,
                depth,
                lid,
                spare,
                ..Recess::default()
            },
        )
    }

    fn fillings() -> impl Strategy<Value = Filling> {
        let long = || 0.1..100_000.0_f64;
        let warm = || -40.0..80.0_f64;
        let poured = (
            [0.0..20.0_f64, 0.0..2.0, 0.0..1000.0],
            any::<bool>(),
            mixes(),
            1..50_u32,
        );
        (poured, [long(), long(), long()], [warm(), warm()]).prop_map(
            |((poured, around_insert, mix, boards), [batch, pot_life, ten_bores], warm)| Filling {
                below_top: poured[2] / 2.0,
                dome: poured[0],
                around_insert,
                waste: poured[1],
                cup: poured[2],
                batch,
                mix,
                boards,
                pot_life,
                pot_life_at: warm[0],
                shop: warm[1],
                mixing: poured[2],
                ten_bores,
            },
        )
    }

    fn mixes() -> impl Strategy<Value = Mix> {
        let by = prop::sample::select(&MixedBy::ALL[..]);
        let part = || 0.01..1000.0_f64;
        (by, part(), part(), 0.5..5.0_f64).prop_map(|(by, resin, hardener, density)| Mix {
            by,
            resin,
            hardener,
            density,
        })
    }

    fn finishes() -> impl Strategy<Value = Vec<Coat>> {
        let kind = prop::sample::select(&CoatKind::ALL[..]);
        let coat = (kind, 0.0..100_000.0_f64).prop_map(|(kind, dries)| Coat { kind, dries });
        prop::collection::vec(coat, 0..6)
    }

    fn all_grooves() -> impl Strategy<Value = Grooves> {
        let beside = || prop::option::of(0.0..500.0_f64);
        let bit = (0.1..50.0_f64, 10.0..170.0_f64, 0.0..50.0_f64);
        let gaps = [beside(), beside(), beside(), beside(), beside()];
        (bit, any::<bool>(), gaps).prop_map(|((width, angle, tip), track, gaps)| Grooves {
            width,
            angle,
            tip,
            track,
            around_home: gaps[0],
            around_start: gaps[1],
            rings: gaps[2].map(|gap| Rings {
                gap,
                start: track,
                ..Rings::default()
            }),
            sectors_from: gaps[3],
            rim: gaps[4],
            ..Grooves::default()
        })
    }

    fn boards() -> impl Strategy<Value = Board> {
        let counts = (1_u32..=24, 1_u32..=400, 0_u32..=60, 0_u32..=60);
        let wood = (centers(), [bores(), bores(), bores()], 0.1..1000.0_f64);
        let glue = (
            stocks(),
            panels(),
            prop::collection::vec(Just(ScrewCircle::default()), 0..3),
            prop::option::of(Just(Router::default())),
        );
        let bench = (
            prop::option::of(recesses()),
            prop::option::of(fillings()),
            finishes(),
            prop::option::of(all_grooves()),
        );
        let looks = (".{0,12}", any::<bool>(), templates(), edits());
        (patterns(), pockets(), counts, wood, (glue, bench), looks).prop_map(
            |(pattern, pocket, counts, wood, (glue, bench), looks)| {
                let (recess, filling, finish, grooves) = bench;
                let (stock, panel, screws, router) = glue;
                let (center, [track, home, start], pitch) = wood;
                let (title, inches, template, edits) = looks;
                Board {
                    title,
                    units: if inches { Units::Inch } else { Units::Mm },
                    players: counts.0,
                    spaces: counts.1,
                    home: counts.2,
                    start: counts.3,
                    pattern,
                    pitch,
                    pocket,
                    center,
                    bores: Bores {
                        track,
                        home,
                        start,
                        ..Board::default().bores
                    },
                    stock,
                    panel,
                    screws,
                    recess,
                    filling,
                    finish,
                    grooves,
                    router,
                    template,
                    edits,
                    ..Board::default()
                }
            },
        )
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_to_the_last_digit(board in boards()) {
            prop_assert_eq!(read_board(write_board(&board).as_bytes()), Ok(board));
        }
    }
}
