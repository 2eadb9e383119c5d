using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>Two statements of the port's rating disagree.</summary>
public sealed class DeclaredPdpDiffers : PortRule
{
    // Below this a rating may have half watts, of which the messages carry the whole ones only (10.1, 6.4.11).
    private const int WholeWattsFrom = 10_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "declared-pdp-differs",
        Severity = Severity.Violation,
        Title = "The port declares two different ratings",
        Clause = "R3.2v1.1 6.4.11, Table 6.54, 10.1",
        Why = "Port Maximum PDP in Source_Info is the rating that Source_Capabilities_Extended states and that is printed. "
            + "Devices that show the charger's power, or choose by it, are told two things.",
        Evidence = "Source_Info, and Source_Capabilities_Extended or a printed power. A printed power may be that of another "
            + "protocol and does not settle it.",
        Editions = PowerDelivery.Limits.Editions.R31 | PowerDelivery.Limits.Editions.R32,
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A, SPR AVS 3A/3.25A]
            steps:
              - advertise
              - send source Source_Info 0x80414141
              - send source Source_Capabilities_Extended FFFF0000000000000000000000000000000000000000002D00
            """,
            "Source_Info says 65 W, Source_Capabilities_Extended 45 W."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        foreach (SourceInfoStatement stated in port.Infos)
        {
            Power maximum = stated.Info.MaximumPdp;
            foreach (RatingStatement rating in port.Ratings)
            {
                Power declared = Larger(rating.Spr, rating.Epr ?? Power.Zero);
                bool known = rating.Epr is not null || maximum.Milliwatts <= PdpRules.PowerRules.SprMaximumMilliwatts;
                if (known && declared.Milliwatts > 0 && Differ(maximum, declared))
                {
                    hits.Report(
                        this,
                        new Hit(Verdict.Fails, $"Source_Info says {maximum}, Source_Capabilities_Extended says {declared}.")
                        {
                            Expected = $"one rating, {maximum}",
                            Observed = $"{declared}",
                        },
                        rating.Place);
                }
            }

            // The integer part of what is printed; the label's figure may be that of another protocol.
            if (stated.Place.InUse.Length <= 1 && port.Printed is { } printed
                && printed.Milliwatts / 1000 != maximum.Milliwatts / 1000)
            {
                hits.Report(
                    this,
                    new Hit(Verdict.CannotTell, $"The port declares {maximum}; {printed} are printed for it.")
                    {
                        Expected = $"{printed}",
                        Observed = $"{maximum}",
                        NextStep = "Find out which protocol the printed power belongs to.",
                    },
                    stated.Place);
            }
        }
    }

    private static Power Larger(Power left, Power right) => left > right ? left : right;

    private static bool Differ(Power left, Power right) => left.Milliwatts < WholeWattsFrom && right.Milliwatts < WholeWattsFrom
        ? Math.Abs(left.Milliwatts - right.Milliwatts) > 1000
        : left != right;
}
