//! The positions of fields in the file, and the paths that identify them.

use serde_json::Value as Json;

use super::{Field, Kind, Value, Written, all_fields};
use crate::Board;

impl Field {
    /// Its path in the file, for a list entry.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::SCREW_DEPTH.path_of(2), "screws[2].depth_mm");
    /// assert_eq!(field::PITCH.path_of(0), "pitch_mm");
    /// ```
    pub fn path_of(&self, entry: usize) -> String {
        self.path.replacen("[]", &format!("[{entry}]"), 1)
    }

    /// Whether it belongs to a list entry.
    ///
    /// ```
    /// use board::field;
    /// assert!(field::SCREW_DEPTH.is_of_entry() && !field::SCREWS.is_of_entry());
    /// ```
    pub fn is_of_entry(&self) -> bool {
        self.path.contains("[]")
    }

    /// The JSON that the file has there; for a choice, its word. `None` if the board does not have the field now.
    ///
    /// ```
    /// use board::{Board, field};
    /// assert_eq!(field::PITCH.written(&Board::default(), 0).as_deref(), Some("19.0"));
    /// assert_eq!(field::PATTERN.written(&Board::default(), 0).as_deref(), Some("ring"));
    /// ```
    pub fn written(&self, board: &Board, entry: usize) -> Option<String> {
        self.value(board, entry)?;
        let file = serde_json::to_value(board).ok()?;
        match at(&file, &self.path_of(entry))? {
            Json::String(word) if self.kind == Kind::Choice => Some(word.clone()),
            // A choice with its own numbers is an object keyed by its word.
            Json::Object(members) if self.kind == Kind::Choice => members.keys().next().cloned(),
            other => Some(other.to_string()),
        }
    }

    /// The file's words for the choices, in the order of [`Field::choices`].
    ///
    /// ```
    /// use board::{Board, field};
    /// assert_eq!(field::CENTER.words(&Board::default(), 0), ["nothing", "pivot", "hole"]);
    /// assert_eq!(field::CENTER.choices(), ["no hole", "pivot for the jig", "playing hole"]);
    /// ```
    pub fn words(&self, board: &Board, entry: usize) -> Vec<String> {
        let word = |place| {
            let mut board = board.clone();
            self.set(&mut board, entry, &Value::Choice(place));
            self.written(&board, entry)
        };
        (0..self.choices().len()).filter_map(word).collect()
    }

    /// Adds the optional parts that contain the field, and the next entry of its list if that is the one it belongs to.
    ///
    /// ```
    /// use board::{Board, field};
    /// let mut board = Board::default();
    /// field::PECK.begin(&mut board, 0);
    /// assert_eq!(board.machine.unwrap().bits.len(), 1);
    /// ```
    pub fn begin(&self, board: &mut Board, entry: usize) {
        for within in all_fields() {
            let Some(rest) = self.path.strip_prefix(within.path) else {
                continue;
            };
            match within.value(board, 0) {
                Some(Value::Tick(false)) if rest.starts_with(['.', '[']) => {
                    within.set(board, 0, &Value::Tick(true));
                }
                Some(Value::Entries(count)) if rest.starts_with("[]") && entry == count => {
                    within.set(board, 0, &Value::Entries(count + 1));
                }
                _ => {}
            }
        }
    }

    /// The board with the parts, the entry and the kinds that the field needs; `None` if nothing can add them.
    ///
    /// ```
    /// use board::{Board, Value, field};
    /// let dovetailed = field::DOVETAIL.brought(&Board::default()).unwrap();
    /// assert_eq!(field::DOVETAIL.value(&dovetailed, 0), Some(Value::Number(14.0)));
    /// ```
    pub fn brought(&self, board: &Board) -> Option<Board> {
        let mut board = board.clone();
        self.begin(&mut board, 0);
        if self.value(&board, 0).is_none() {
            let (kind, word) = self.brought_by(&board, 0)?;
            let place = kind.words(&board, 0).iter().position(|one| *one == word)?;
            kind.set(&mut board, 0, &Value::Choice(place));
        }
        Some(board)
    }

    /// The choice that adds the field, with the word of the kind that has it, if that is all the board lacks.
    ///
    /// ```
    /// use board::{Board, field};
    /// let (choice, word) = field::LOBE_DEPTH.brought_by(&Board::default(), 0).unwrap();
    /// assert_eq!((choice.path, word.as_str()), ("pattern.kind", "lobes"));
    /// ```
    pub fn brought_by(&self, board: &Board, entry: usize) -> Option<(&'static Self, String)> {
        let within = |kind: &&Self| {
            kind.kind == Kind::Choice && self.path.starts_with(kind.path.trim_end_matches(".kind"))
        };
        all_fields().filter(within).find_map(|kind| {
            (0..kind.choices().len()).find_map(|place| {
                let mut other = board.clone();
                kind.set(&mut other, entry, &Value::Choice(place));
                self.value(&other, entry)?;
                Some((kind, kind.written(&other, entry)?))
            })
        })
    }
}

/// The field at a path of the file, with its list entry; unit suffixes of names may be omitted.
///
/// ```
/// use board::field;
/// let (found, entry) = field::find("screws[2].depth").unwrap();
/// assert_eq!((found.path, entry), ("screws[].depth_mm", 2));
/// ```
pub fn find(path: &str) -> Option<(&'static Field, usize)> {
    let mut fields = all_fields();
    if let Some(field) = fields.find(|field| plain(field.path) == plain(path)) {
        return (!field.is_of_entry()).then_some((field, 0));
    }
    let (list, rest) = path.split_once('[')?;
    let (entry, rest) = rest.split_once(']')?;
    let collapsed = plain(&format!("{list}[]{rest}"));
    let field = all_fields().find(|field| plain(field.path) == collapsed)?;
    Some((field, entry.parse().ok()?))
}

/// The list whose entry a path names, with the index in the list that contains that list, and the index of the named entry.
///
/// ```
/// use board::field;
/// let (list, _, named) = field::find_in_list("screws[2]").unwrap();
/// assert_eq!((list.path, named), ("screws", 2));
/// assert!(field::find_in_list("screws[2].depth").is_none());
/// ```
pub fn find_in_list(path: &str) -> Option<(&'static Field, usize, usize)> {
    let (list, named) = path.strip_suffix(']')?.rsplit_once('[')?;
    let (field, entry) = find(list)?;
    let is_list = matches!(
        field.kind,
        Kind::Entries(_)
            | Kind::Numbers { .. }
            | Kind::Corners { .. }
            | Kind::Written(Written::DaysOff(_))
    );
    is_list.then_some((field, entry, named.parse().ok()?))
}

/// A path without the unit suffixes of its names, which [`find`] accepts too.
///
/// ```
/// assert_eq!(board::field::plain("recess.at_mm[0]"), "recess.at[0]");
/// ```
pub fn plain(path: &str) -> String {
    const UNITS: [&str; 16] = [
        "_mm_min", "_kg_m3", "_g_cm3", "_g_ml", "_percent", "_mm", "_deg", "_rpm", "_ml", "_min",
        "_kg", "_g", "_n", "_s", "_h", "_c",
    ];
    let name = |name: &str| {
        let (name, index) = name.split_at(name.find('[').unwrap_or(name.len()));
        let bare = UNITS.iter().find_map(|unit| name.strip_suffix(unit));
        let bare = bare.unwrap_or(name);
        format!("{bare}{index}")
    };
    let names: Vec<String> = path.split('.').map(name).collect();
    names.join(".")
}

/// The JSON at a path of a file.
fn at<'a>(file: &'a Json, path: &str) -> Option<&'a Json> {
    let mut names = path.split(['.', '[']);
    names.try_fold(file, |found, name| match name.strip_suffix(']') {
        Some(entry) => found.get(entry.parse::<usize>().ok()?),
        None => found.get(name),
    })
}
