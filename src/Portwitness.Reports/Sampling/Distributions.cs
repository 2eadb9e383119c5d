namespace Portwitness.Reports.Sampling;

/// <summary>Normal and chi-square distribution, and the gamma function that both rest on; to some twelve digits.</summary>
internal static class Distributions
{
    private const double Tolerance = 1e-15;
    private const int MaxTerms = 100_000;

    // Lanczos' approximation with g = 607/128 and fifteen terms, as published by Godfrey (from memory; LogGamma is tested on factorials).
    private static readonly double[] Lanczos =
    [
        0.99999999999999709182, 57.156235665862923517, -59.597960355475491248, 14.136097974741747174, -0.49191381609762019978,
        0.33994649984811888699e-4, 0.46523628927048575665e-4, -0.98374475304879564677e-4, 0.15808870322491248884e-3,
        -0.21026444172410488319e-3, 0.21743961811521264320e-3, -0.16431810653676389022e-3, 0.84418223983852743293e-4,
        -0.26190838401581408670e-4, 0.36899182659531622704e-5,
    ];

    /// <summary>The share of a normal distribution below x standard deviations from its mean.</summary>
    public static double Normal(double x) => x < 0 ? UpperGamma(0.5, x * x / 2) / 2 : (1 + LowerGamma(0.5, x * x / 2)) / 2;

    /// <summary>So many standard deviations from the mean a share of a normal distribution lies below.</summary>
    /// <param name="share">More than 0, less than 1.</param>
    public static double NormalQuantile(double share) => Root(-40, 40, x => Normal(x) - share);

    /// <summary>How probable a chi-square of more than x is.</summary>
    /// <param name="x">0 or more.</param>
    /// <param name="freedom">Degrees of freedom, 1 or more.</param>
    public static double ChiSquareAbove(double x, int freedom) => UpperGamma(freedom / 2.0, x / 2);

    /// <summary>The natural logarithm of the gamma function.</summary>
    /// <param name="x">More than 0.</param>
    public static double LogGamma(double x)
    {
        double sum = Lanczos[0];
        for (int term = 1; term < Lanczos.Length; term++)
        {
            sum += Lanczos[term] / (x + term - 1);
        }

        double shifted = x + (607.0 / 128) - 0.5;
        return (Math.Log(2 * Math.PI) / 2) + Math.Log(sum) + ((x - 0.5) * Math.Log(shifted)) - shifted;
    }

    /// <summary>Where a function that rises from below zero to above it is zero, by halving.</summary>
    public static double Root(double least, double most, Func<double, double> rising)
    {
        for (int step = 0; step < 200 && most - least > Tolerance * Math.Max(1, Math.Abs(least)); step++)
        {
            double middle = (least + most) / 2;
            (least, most) = rising(middle) < 0 ? (middle, most) : (least, middle);
        }

        return (least + most) / 2;
    }

    /// <summary>The integral of a smooth function, by Simpson's rule.</summary>
    public static double Integral(double from, double until, int panels, Func<double, double> function)
    {
        double width = (until - from) / panels;
        double sum = function(from) + function(until);
        for (int at = 1; at < panels; at++)
        {
            sum += function(from + (at * width)) * (at % 2 == 0 ? 2 : 4);
        }

        return sum * width / 3;
    }

    private static double LowerGamma(double a, double x) => x < a + 1 ? Series(a, x) : 1 - Fraction(a, x);

    private static double UpperGamma(double a, double x) => x < a + 1 ? 1 - Series(a, x) : Fraction(a, x);

    // Abramowitz and Stegun, 6.5.29.
    private static double Series(double a, double x)
    {
        if (x <= 0)
        {
            return 0;
        }

        double term = 1 / a;
        double sum = term;
        for (int n = 1; n < MaxTerms && term > sum * Tolerance; n++)
        {
            term *= x / (a + n);
            sum += term;
        }

        return sum * Math.Exp((a * Math.Log(x)) - x - LogGamma(a));
    }

    // Abramowitz and Stegun, 6.5.31, from the front (Lentz).
    private static double Fraction(double a, double x)
    {
        const double tiny = 1e-300;
        double b = x + 1 - a;
        double c = 1 / tiny;
        double d = 1 / b;
        double value = d;
        for (int n = 1; n < MaxTerms; n++)
        {
            double factor = -n * (n - a);
            b += 2;
            d = 1 / NotZero((factor * d) + b);
            c = NotZero(b + (factor / c));
            value *= c * d;
            if (Math.Abs((c * d) - 1) < Tolerance)
            {
                break;
            }
        }

        return value * Math.Exp((a * Math.Log(x)) - x - LogGamma(a));

        static double NotZero(double number) => Math.Abs(number) < tiny ? tiny : number;
    }
}
