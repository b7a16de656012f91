// Package journal is the plot folder on disk:
//
//	kitchen.yaml      the kitchen; package recipes reads it
//	plantings.yaml    what stands where
//	dishes/*.yaml     the grower's dishes; package recipes reads them
//	journal/2031/     the entries of a season, one file each
//
// [Open] opens a folder, [Embedded] a read-only one in the program, and [Begin]
// makes a new one. [Folder.Ledger] opens the plot's account for a question,
// [Folder.LedgerToWrite] to add to it; what is asked and added then is said in
// package harvest. [Folder.Import] and [Folder.Export] bring tables in and out;
// [Folder.Pack] and [Folder.Bring] carry the plot's own files to another device and
// home; [Folder.Check] reads all there is.
//
// # Entries
//
// An entry is filed under the year its lot was lifted and is never changed or
// overwritten; folders merge by copying. It is written to a temporary file,
// synced, and linked to a name that must not exist yet, so that a crash or two
// people writing at once lose nothing and no half entry is ever read; see
// [Folder.Write]. Sheets and calendars are written as carefully, as an [Output] in
// the place of the file that has their name, and dishes by [Folder.WriteDish].
// What something stopped half-way is listed by [Folder.Unfinished] and settled by
// [Folder.Mend].
//
// # Errors
//
// Everything read is checked, and all that is wrong is told at once with its
// file, line and column, as strict.Errors. What the disk refuses is a
// units.FieldError with its cause, and a folder that is no plot a [NoPlotError].
package journal
