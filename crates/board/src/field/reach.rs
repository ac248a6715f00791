//! The rows of the table, each written once: one path through the document gives both the reader and the writer.

/// The place that a path leads to: `.name` is a member, `?` an optional part, `[]` a list entry, `[0]` a coordinate, and
/// `{Variant => name}` a member of the chosen kind. If the path ends early, the enclosing function returns `None`.
macro_rules! reach {
    ($how:tt $at:ident $it:expr;) => { $it };
    ([$part:ident $entry:ident ($($borrow:tt)+)] $at:ident $it:expr; ? $($rest:tt)*) => {
        reach!([$part $entry ($($borrow)+)] $at *$it.$part()?; $($rest)*)
    };
    ([$part:ident $entry:ident ($($borrow:tt)+)] $at:ident $it:expr; [] $($rest:tt)*) => {
        reach!([$part $entry ($($borrow)+)] $at *$it.$entry($at)?; $($rest)*)
    };
    ($how:tt $at:ident $it:expr; [$coordinate:literal] $($rest:tt)*) => {
        reach!($how $at $it[$coordinate]; $($rest)*)
    };
    ($how:tt $at:ident $it:expr; .$member:ident $($rest:tt)*) => {
        reach!($how $at $it.$member; $($rest)*)
    };
    ([$part:ident $entry:ident ($($borrow:tt)+)] $at:ident $it:expr;
        {$($chosen:path)|+ => $member:ident} $($rest:tt)*) => {
        reach!([$part $entry ($($borrow)+)] $at *match $($borrow)+ $it {
            $($chosen { $member, .. })|+ => $member,
            _ => return None,
        }; $($rest)*)
    };
}

/// Rows of the table, in the order of the document, and the list of them: name, path in the file, path through the document,
/// label, kind, hint; optionally its initial value on a board in inches, and whether it belongs to the shop.
macro_rules! fields {
    ($(#[$doc:meta])* $rows:ident: $($name:ident $path:expr, [$($way:tt)+] $label:expr, $kind:expr, $hint:expr
        $(, us: $us:literal)? $(, of $shop:ident)?;)+) => {
        $(
            #[doc = $label]
            pub static $name: $crate::field::Field = $crate::field::Field {
                path: $path,
                label: $label,
                hint: $hint,
                kind: $crate::field::Kind::named($kind, $label),
                us: concat!($($us)?),
                of_shop: !stringify!($($shop)?).is_empty(),
                read: |board, at| {
                    let _ = at;
                    Some($crate::field::held::Held::value(&reach!([as_ref get (&)] at board; $($way)+)))
                },
                write: |board, at, value| {
                    let _ = at;
                    let next = $crate::field::held::Held::with(
                        &reach!([as_ref get (&)] at board; $($way)+), value, board)?;
                    reach!([as_mut get_mut (&mut)] at board; $($way)+) = next;
                    Some(())
                },
                take_out: |board, at, gone| {
                    let _ = at;
                    $crate::field::held::Held::take_out(
                        &mut reach!([as_mut get_mut (&mut)] at board; $($way)+), gone)
                },
                choices: || $crate::field::held::choices_of(|board, at| {
                    let _ = at;
                    Some(&reach!([as_ref get (&)] at board; $($way)+))
                }),
            };
        )+
        $(#[$doc])*
        pub static $rows: &[&$crate::field::Field] = &[$(&$name),+];
    };
}
