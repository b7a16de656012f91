// Package integer solves small integer programs exactly, level by level. A
// [Model] is
//
//	Σ_j a_ij·x_j ≤ b_i                    for every row i
//	l_j ≤ x_j ≤ u_j,  x_j = 0 or x_j ≥ s_j   for every column j
//	x_j whole
//
// with a list of levels f_1, f_2, …: of all solutions those with the largest
// f_1, of these those with the largest f_2, and so on (lexicographic
// optimisation; M. Ehrgott, Multicriteria Optimization, Springer 2005, 5.1).
// A level's [Goal] is a linear sum ([Linear]), a sum of least slacks
// ([Concave]), a fair share ([MaxMin]) or columns one after the other
// ([InOrder]).
//
// [Solve] works by branch and bound. The linear
// relaxation runs in floating point and only advises where to look: every
// bound that closes a branch is recomputed from its multipliers in exact
// integers, and every solution that is kept has been checked row by row. So an
// answer is proven, or it says that it is not and by how much at most. The same
// model gives the same answer, byte for byte.
//
// What a model's author knows beyond its rows comes in by branching ranks
// ([Column]), by [Model.Start], by [Model.Repair], which mends rounded points,
// and by [Model.Separate], which writes rows down only once they are broken.
package integer
