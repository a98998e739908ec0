package outside

// A Source is where printed values come from.
type Source struct {
	Text string // as cited
	Read string // how it was read here
}

// Sources by the keys that rows name them with. Each counts once, however many rows it
// has, and one that no row names is refused.
var Sources = map[string]Source{
	"arenstorf":    {"E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I, II.0: the Arenstorf orbit", "start and period quoted in public collections of test problems"},
	"astmd2734":    {"ASTM D2734, Void content of reinforced plastics", "formula read, example worked here"},
	"astmd3171":    {"ASTM D3171, Constituent content of composite materials", "formula of method II read; layout of method I recalled"},
	"astmd4212":    {"ASTM D4212, Viscosity by dip-type viscosity cups", "formulas, oils and times read in texts that quote the standard"},
	"bratu":        {"the fold of the one-dimensional Bratu-Gelfand problem, λ = 3.513830719", "quoted in many public test suites"},
	"cengel":       {"Y. A. Çengel, Heat and Mass Transfer, chapter 4", "table 4-2 and typical coefficients read; example 4-2 recalled"},
	"codata":       {"CODATA 2018, SI Brochure 9th edition and the 1959 agreement on yard and pound", "recalled; exact by definition"},
	"crccatalogue": {"catalogue of parametrised CRC algorithms, check value of CRC-32C", "quoted in test suites of public programs"},
	"cvode":        {"CVODE of SUNDIALS 6.4.1, testdata/reference/cvode.md", "run by hand with a relative tolerance of 1e-12; not in CI"},
	"ea402":        {"EA-4/02, Evaluation of the Uncertainty of Measurement in Calibration, S2: a weight of 10 kg", "readings and results read in a public page that works the example"},
	"epoxyhpc":     {"isothermal calorimetry of bisphenol-A epoxy with two aliphatic diamines, open data, repository tkmeldrum/epoxy_HPC", "read; minutes worked back from the authors' own fits"},
	"equicyl":      {"tables of critical values of the Frank-Kamenetskii parameter for finite bodies", "read in a secondary source"},
	"flory":        {"P. J. Flory and W. H. Stockmayer, gel conversion 1/√((f1 − 1)(f2 − 1))", "read in textbooks"},
	"fk":           {"D. A. Frank-Kamenetskii, critical values with a fixed wall: 0.88, 2.00 and 3.32", "read in abstracts and encyclopaedias that quote them; to three figures"},
	"hhpa1977":     {"J. Appl. Polym. Sci. 21 (1977) 2359", "abstract read"},
	"incropera":    {"F. P. Incropera, D. P. DeWitt and others, Fundamentals of Heat and Mass Transfer, chapters 5 and 7", "chapter 5: numbers and results read in a public companion that works the examples again; chapter 7: formula read in public worked examples, numbers recalled"},
	"iso14692":     {"ISO 14692-1:2017, vocabulary: tow tex = 496 054.6/yield", "read in a public lexicon that quotes it"},
	"iso2431":      {"ISO 2431, Flow time by use of flow cups", "formulas recalled, and read in a public program that follows the standard"},
	"jced2009":     {"J. Chem. Eng. Data 54 (2009) 2365", "read"},
	"jcgm100":      {"JCGM 100:2008, Guide to the expression of uncertainty in measurement, H.1: an end gauge", "readings and results read in test suites of public programs; shares recalled"},
	"jcgm101":      {"JCGM 101:2008, Propagation of distributions using a Monte Carlo method, 9.2", "recalled"},
	"johnston97":   {"A. A. Johnston, PhD thesis, University of British Columbia, 1997", "viscosity read; constants of the kinetics read in the open notebook of a later study, the thesis itself not at hand"},
	"kaw":          {"A. K. Kaw, Mechanics of Composite Materials, example 3.1", "question read, results recalled"},
	"kell1975":     {"G. S. Kell, J. Chem. Eng. Data 20 (1975) 97: density of water", "constants read in public programs that quote them"},
	"lee1982":      {"W. I. Lee, A. C. Loos, G. S. Springer, J. Compos. Mater. 16 (1982) 510-520", "constants read in two transcriptions; prefactor of the viscosity recalled"},
	"nellis":       {"G. Nellis, S. Klein, Heat Transfer, 3.5.2: long cylinder, examples of the functions that go with the book, the first 20 terms of the series", "read in their manual"},
	"nth1995":      {"J. Reinf. Plast. Compos. 14 (1995) 495", "recalled"},
	"pascault":     {"J. P. Pascault, R. J. J. Williams, J. Polym. Sci. B 28 (1990) 85-95", "recalled"},
	"perrins":      {"W. T. Perrins, D. R. McKenzie, R. C. McPhedran, Proc. R. Soc. A 369 (1979) 207-225, table of square arrays", "recalled"},
	"polimeros":    {"calorimetry of an epoxy with triethylenetetramine, Polímeros (SciELO)", "read"},
	"rfc3720":      {"RFC 3720, B.4: CRC examples", "quoted in test suites of public programs"},
	"rfc5545":      {"RFC 5545, Internet Calendaring and Scheduling", "recalled"},
	"robertson":    {"H. H. Robertson's problem (1966) as in public collections of stiff problems", "values at 40 s quoted to ten digits and more"},
	"scipy":        {"SciPy, testdata/reference/*.py: explicit of order 8 and implicit of order 5, Chebyshev points, finite elements", "run in CI"},
	"niaki2021":    {"S. A. Niaki and others, Comput. Methods Appl. Mech. Eng. 384 (2021) 113959: a laminate on a tool, by finite elements", "the authors' open notebook and tables read; the paper not at hand"},
	"strd":         {"NIST, Statistical Reference Datasets, nonlinear regression", "files read as public copies quote them whole"},
	"tanaka2001":   {"M. Tanaka and others, Metrologia 38 (2001) 301-309: density of water", "constants read in public programs that quote them"},
	"tartu":        {"University of Tartu, examples of uncertainty: simple weighing", "read"},
	"teta1984":     {"activation energies of amine cures: J. Appl. Polym. Sci. 29 (1984) 2481; 83 (2002) 78; 92 (2004) 1190; Thermochim. Acta 447 (2006) 167", "read"},
	"anhydride":    {"dynamic calorimetry and rheology of epoxy with liquid anhydrides", "abstract read"},
	"thomas1958":   {"P. H. Thomas, Trans. Faraday Soc. 54 (1958) 60: convective walls", "after the paper; values worked here twice"},
	"watertable":   {"general tables of the density of water, from 15 to 30 °C", "read in two encyclopaedic pages, and CRC Handbook recalled"},
	"williams":     {"F. A. Williams, Combustion Theory, 2nd ed., appendix B", "read"},
	"yields":       {"a reference table of textile yields in yards per pound", "read"},
}
