// Package ask holds one function per job (Share, Table, Dish, Steam, Keep,
// Lift, ...): it takes a plot and a question and returns the answer as plain
// data. It prints nothing and reads no flags.
package ask
