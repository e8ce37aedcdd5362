"""The bibliography: every printed source the package computes from or is checked against.

Docstrings cite by key, ``Source: [ISO76]``; a test keeps the two matched.
"""

SOURCES: dict[str, str] = {
    "Bardsley2014": (
        "J. M. Bardsley, A. Solonen, H. Haario, M. Laine, Randomize-then-optimize: a method for sampling from "
        "posterior distributions in nonlinear inverse problems, SIAM Journal on Scientific Computing 36, 2014, "
        "A1895-A1910"
    ),
    "BoydVandenberghe2004": "S. Boyd, L. Vandenberghe, Convex Optimization, 2004",
    "BreweHamrock1977": (
        "D. E. Brewe, B. J. Hamrock, Simplified solution for elliptical-contact deformation between two "
        "elastic solids, Journal of Lubrication Technology 99, 1977, 485-487"
    ),
    "CookWeisberg1982": "R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982",
    "EN14766": (
        "EN 14766:2005, Mountain-bicycles - Safety requirements and test methods (withdrawn; see ISO 4210)"
    ),
    "FritschButland1984": (
        "F. N. Fritsch, J. Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM "
        "Journal on Scientific and Statistical Computing 5, 1984, 300-304"
    ),
    "FritschCarlson1980": (
        "F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM Journal on Numerical "
        "Analysis 17, 1980, 238-246"
    ),
    "GUM2008": "JCGM 100:2008, Evaluation of measurement data - Guide to the expression of uncertainty in measurement",
    "GelmanBDA2013": "A. Gelman et al., Bayesian Data Analysis, 3rd ed., 2013",
    "HarrisKotzalas2007": "T. A. Harris, M. N. Kotzalas, Rolling Bearing Analysis, 5th ed., 2007",
    "ISO281": "ISO 281, Rolling bearings - Dynamic load ratings and rating life",
    "ISO3": "ISO 3, Preferred numbers - Series of preferred numbers",
    "ISO68-1": "ISO 68-1, ISO general purpose screw threads - Basic profile - Metric screw threads",
    "ISO76": "ISO 76:1987, Rolling bearings - Static load ratings",
    "ISO965-1": (
        "ISO 965-1, ISO general purpose metric screw threads - Tolerances - Principles and basic data"
    ),
    "JanduraSrinivasan1994": (
        "L. Jandura, M. A. Srinivasan, Experiments on human performance in torque discrimination and control, "
        "ASME Dynamic Systems and Control 55-1, 1994, 369-375"
    ),
    "Johnson1985": "K. L. Johnson, Contact Mechanics, 1985",
    "Kish1965": "L. Kish, Survey Sampling, 1965",
    "KontsevichTyler1999": (
        "L. L. Kontsevich, C. W. Tyler, Bayesian adaptive estimation of psychometric slope and threshold, Vision "
        "Research 39, 1999, 2729-2737"
    ),
    "Levitt1971": (
        "H. Levitt, Transformed up-down methods in psychoacoustics, Journal of the Acoustical Society of America 49, "
        "1971, 467-477"
    ),
    "LundbergPalmgren1947": (
        "G. Lundberg, A. Palmgren, Dynamic Capacity of Rolling Bearings, Acta Polytechnica, Mechanical "
        "Engineering Series 1, no. 3, 1947"
    ),
    "Marquardt1963": (
        "D. W. Marquardt, An algorithm for least-squares estimation of nonlinear parameters, Journal of the Society "
        "for Industrial and Applied Mathematics 11, 1963, 431-441"
    ),
    "Martin1998": (
        "J. C. Martin et al., Validation of a mathematical model for road cycling power, Journal of Applied "
        "Biomechanics 14, 1998, 276-291"
    ),
    "Mehrotra1992": (
        "S. Mehrotra, On the implementation of a primal-dual interior point method, SIAM Journal on Optimization "
        "2, 1992, 575-601"
    ),
    "Palmgren1959": "A. Palmgren, Ball and Roller Bearing Engineering, 3rd ed., 1959",
    "Prins2013": (
        "N. Prins, The psi-marginal adaptive method: how to give nuisance parameters the attention they deserve (no "
        "more, no less), Journal of Vision 13(7), 2013, 3"
    ),
    "Saltelli2010": (
        "A. Saltelli et al., Variance based sensitivity analysis of model output, Computer Physics Communications "
        "181, 2010, 259-270"
    ),
    "Sattelmayer2016": (
        "M. Sattelmayer, S. Elsig, R. Hilfiker, G. Baer, A systematic review and meta-analysis of selected motor "
        "learning principles in physiotherapy and medical education, BMC Medical Education 16, 2016, 15"
    ),
    "Spruit2014": (
        "E. N. Spruit, G. P. H. Band, J. F. Hamming, K. R. Ridderinkhof, Optimal training design for procedural motor "
        "skills: a review and application to laparoscopic surgery, Psychological Research 78, 2014, 878-891"
    ),
    "VDI2230": "VDI 2230 Part 1, Systematic calculation of highly stressed bolted joints",
    "WichmannHill2001": (
        "F. A. Wichmann, N. J. Hill, The psychometric function: I. Fitting, sampling, and goodness of fit, Perception "
        "and Psychophysics 63, 2001, 1293-1313"
    ),
}
