// Package pocket puts the page into a phone: a folder of static files, or one
// file, in which package page's own handler runs in the browser itself. There
// is no second implementation: the program is the same packages compiled to
// WebAssembly (pocket/app), a shell of ours shows its screens, an engine of
// ours gives it files in the browser's own store, and a service worker keeps
// it all where there is no network.
//
// The plot goes along as a parcel (see journal.Parcel), and comes home as one.
package pocket
