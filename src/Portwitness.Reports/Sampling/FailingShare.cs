namespace Portwitness.Reports.Sampling;

/// <summary>What share of a lot may fail when so many of its units, drawn at random, did.</summary>
internal static class FailingShare
{
    private const double Confidence = 0.95;
    private const int Millionths = 1_000_000;

    /// <summary>
    /// The largest share in millionths, rounded up, with 95 % confidence: with a larger one so few failures are seen one time in twenty
    /// (Clopper and Pearson; without a failure 1 − 0.05^(1/n)).
    /// </summary>
    /// <param name="units">1 or more.</param>
    /// <param name="failing">0 to units.</param>
    public static int MostMillionths(int units, int failing) => failing >= units ? Millionths
        : (int)Math.Min(Millionths, Math.Ceiling((ShareAccepted(units, failing, 1 - Confidence) * Millionths) - 1e-6));

    /// <summary>The failing share of a lot of which a plan accepts so many lots.</summary>
    /// <param name="units">Drawn.</param>
    /// <param name="accept">With at most so many failing.</param>
    /// <param name="accepted">The share of lots that are accepted, between 0 and 1.</param>
    public static double ShareAccepted(int units, int accept, double accepted) =>
        accept == 0 ? 1 - Math.Pow(accepted, 1.0 / units) : Distributions.Root(0, 1, share => accepted - Accepted(units, accept, share));

    /// <summary>How many lots with a failing share a plan accepts, 0 to 1: at most so many failures in a binomial distribution.</summary>
    public static double Accepted(int units, int accept, double share)
    {
        if (share <= 0 || accept >= units)
        {
            return 1;
        }

        double sum = 0;
        for (int failing = 0; share < 1 && failing <= accept; failing++)
        {
            sum += Math.Exp(
                Distributions.LogGamma(units + 1) - Distributions.LogGamma(failing + 1) - Distributions.LogGamma(units - failing + 1)
                + (failing * Math.Log(share)) + ((units - failing) * Math.Log(1 - share)));
        }

        return Math.Min(1, sum);
    }
}
