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
// # Solving
//
// The matrix of (1) is symmetric and banded as wide as the shorter direction has
// cells: [Band] factors it as L·D·Lᵀ without pivots [1, 4.3]. A source that grows
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
package conduction
