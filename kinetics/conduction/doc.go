// Package conduction writes a solid body as a network of cells that store heat
// and exchange it, so that trays, cups and wound walls share one way of computing.
//
// # Model
//
// A body is cut along one or two directions at right angles (depth; radius; radius
// and height) into cells, each with one temperature T_i in K:
//
//	C_i·dT_i/dt = Σ_j G_ij·(T_j − T_i) + G_i,room·(T_room − T_i)
//	              + G_i,wall·(T_wall − T_i) + source                   (1)
//	G_ij        = A/(d_i/k_i + d_j/k_j)                                (2)
//	G_i,out     = A/(d_i/k_i + 1/h)                                    (3)
//
// C_i is the cell's heat capacity in J/K, A the area of the face between two cells
// or to the outside in m², d_i the distance from the middle of cell i to that face
// in m, k_i its conductivity in W/(m·K), h the loss coefficient of a surface in
// W/(m²·K). What leaves one cell enters the other, so that heat is kept to the last
// bit; the error of a temperature falls with the square of the number of cells.
// Resin makes heat where a layer holds some: package still adds that.
//
// A body of one material may be divided by a [Grid] instead. Temperatures are then
// polynomials, told by their values at the nodes of Gauss and Lobatto (spectral elements
// [3]); a cell is what its node stands for, the quadrature weight. C_i is diagonal as
// before, but each cell is joined to all of its element in its row and column, with
// conductances that may be negative:
//
//	G_ij = −Σ_q w_q·k·D_qi·D_qj                                        (4)
//
// D_qi is the slope at node q of the polynomial that is 1 at node i and 0 at the others.
// Surfaces have nodes, so that their losses need no half cell. Heat is kept as before. The
// error falls by tenfold and more with two more cells across, where (1) is smooth; a front
// thinner than the cells makes the polynomials swing by a few hundredths of its height.
//
// # Solving
//
// The matrix of (1) is symmetric and banded as wide as cells are joined: [Band] factors it as L·D·Lᵀ without pivots [1, 4.3]. A source that grows
// fast with temperature can make it indefinite: then factoring says so, and the
// caller takes a shorter step.
//
// What is not here: convection in the liquid, radiation within the body, contact
// resistance between layers, conduction along a tube or round it, properties that
// change with temperature or cure.
//
// Sources:
//
//	[1] G. H. Golub, C. F. Van Loan, Matrix Computations (from memory).
//	[2] Lord Rayleigh, Phil. Mag. 34 (1892) 481-502 (from memory; its constants agree
//	    with the tables of 1979 beside the test).
//	[3] A. T. Patera, J. Comput. Phys. 54 (1984) 468-488 (from memory); the tests prove
//	    nodes, slopes and convergence.
package conduction
