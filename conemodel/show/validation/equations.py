"""The equations of the model as they are written, each with its words and its source."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """One equation.

    Attributes:
        topic: what it belongs to; words: what it says, with its letters.
        latex: the equation.
        source: key in the bibliography, or `derived`.
    """

    topic: str
    words: str
    latex: str
    source: str


EQUATIONS: tuple[Equation, ...] = (
    Equation(
        topic="Ball and race",
        words="A ball carries Q once cone and cup are closer by δ than just touching; K says how stiff both "
        "contacts are in series.",
        latex=r"\begin{gathered} Q = K\,\delta^{3/2} \\ K^{-2/3} = K_i^{-2/3} + K_o^{-2/3} \end{gathered}",
        source="HarrisKotzalas2007",
    ),
    Equation(
        topic="Ball and race",
        words="Peak pressure over the ellipse with half axes a and b, from the exact elliptic integrals.",
        latex=r"p_0 = \frac{3\,Q}{2\pi\,a\,b}",
        source="Johnson1985",
    ),
    Equation(
        topic="The pair of rows",
        words="S is the distance of the groove centres of one ball, A that distance just touching, o what the ball is "
        "larger. The shell rests where the energy is least; F is the load, q the shell's motion, w the give of axle "
        "and shell with compliance C.",
        latex=r"\begin{gathered} \min_{q,\,w\ge 0}\; \sum_k \tfrac25 K_k\,(S_k - A + o_k)_+^{5/2} \\ "
        r"{} + \frac{w^2}{2C} - F\cdot q \end{gathered}",
        source="HarrisKotzalas2007",
    ),
    Equation(
        topic="Free play",
        words="How far the rim moves without force: the largest movement along c that closes no ball. Solved as it "
        "stands.",
        latex=r"\begin{gathered} \max_{q}\; c\cdot q \\ S_k(q) + o_k \le A \;\text{ for every ball } k \end{gathered}",
        source="BoydVandenberghe2004",
    ),
    Equation(
        topic="Free play",
        words="For little end play e, rows 2h apart, pitch circle d, rim radius R: its check.",
        latex=r"\text{rim play} = e\left(1 + \frac{R\tan\alpha}{h + \tfrac{d}{2}\tan\alpha}\right)",
        source="derived",
    ),
    Equation(
        topic="Thread and locknut",
        words="Axial slack of a thread whose pitch diameters differ.",
        latex=r"b = (D_2 - d_2)\,\tan 30^\circ",
        source="ISO68-1",
    ),
    Equation(
        topic="Thread and locknut",
        words="Torque that locks with the force F, pitch P, friction in the thread and under the nut.",
        latex=r"\begin{gathered} M = F\,(0.16\,P + 0.58\,d_2\,\mu_G \\ {} + \tfrac12 D_{Km}\,\mu_K) \end{gathered}",
        source="VDI2230",
    ),
    Equation(
        topic="Thread and locknut",
        words="Torque with which the cone must be held meanwhile. F stands outside the bracket: a cone that is not "
        "held runs in from the first touch.",
        latex=r"M_h = F\left(\mu_K r_K - \frac{\mu_G d_2}{2\cos 30^\circ} + \frac{P}{2\pi}\right)",
        source="derived",
    ),
    Equation(
        topic="Clamp",
        words="Distance of the cones' threads, middle to middle, for rows S apart: from a cone's outer end its balls "
        "stand b inboard, its thread is t long.",
        latex=r"L = S + \sum_{\text{both}} \left(b - \tfrac{t}{2}\right)",
        source="derived",
    ),
    Equation(
        topic="Clamp",
        words="A clamp with force T shortens the axle between the cones, section by section.",
        latex=r"\Delta L = T \sum_i \frac{L_i}{E\,A_i}",
        source="derived",
    ),
    Equation(
        topic="Clamp",
        words="Force of a quick release with eccentricity ε, from φp where the lever first resists to φc, closed.",
        latex=r"T = k_s\,\varepsilon\,(\cos\varphi_{c} - \cos\varphi_{p})",
        source="derived",
    ),
    Equation(
        topic="Pressure and life",
        words="Dent left by one contact; at 4200 MPa about a ten-thousandth of the ball, in close grooves.",
        latex=r"\delta_s = 1.3\cdot10^{-7}\,\frac{Q^2}{D}\,\rho_I\,\rho_{II}",
        source="Palmgren1959",
    ),
    Equation(
        topic="Pressure and life",
        words="Life of a race with capacity Qc under the loads of its balls; races and loads add up. Only as a ratio.",
        latex=r"\begin{gathered} L = \left(\frac{Q_c}{Q_m}\right)^3 \\ "
        r"\frac1L = \sum_j \frac{\text{share}_j}{L_j} \end{gathered}",
        source="LundbergPalmgren1947",
    ),
    Equation(
        topic="Turning",
        words="Torque from the load and from the grease of one row; below νn = 2000 the second is constant. The "
        "factor of the load was measured on whole bearings: it holds rolling, sliding and spin.",
        latex=r"\begin{gathered} M = f_1 P\,d_m \\ "
        r"{} + 10^{-7} f_0\,\max\!\left[(\nu n)^{2/3},\,160\right] d_m^3 \end{gathered}",
        source="Palmgren1959",
    ),
    Equation(
        topic="Turning",
        words="A ball spinning about its line of contact rubs over the ellipse. All of them by themselves, at a "
        "friction of 0.15, are the upper edge of the torque from the load and its check; they are not added to it.",
        latex=r"M_s = \tfrac38\,\mu\,Q\,a\,\mathrm{E}(k)",
        source="HarrisKotzalas2007",
    ),
    Equation(
        topic="Turning",
        words="Where dents or skew races change the energy W as the wheel turns by θ, the hand feels its slope.",
        latex=r"M_{ripple} = \frac{dW}{d\theta}",
        source="derived",
    ),
    Equation(
        topic="Spinning",
        words="A wheel with inertia I left to spin; and the angle at which a heavy spot m at r stays put.",
        latex=r"\begin{gathered} I\,\frac{d\omega}{dt} = -M(\omega) \\ \sin\beta = \frac{M}{m\,g\,r} \end{gathered}",
        source="derived",
    ),
)
"""In the order of the work, from the ball to the wheel."""
