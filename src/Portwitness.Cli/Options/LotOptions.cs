using System.CommandLine;
using System.Globalization;
using Portwitness.Reports.Sampling;

namespace Portwitness.Cli.Options;

/// <summary>--lot and --aql: the lot that the products of a batch are drawn from.</summary>
internal sealed class LotOptions
{
    /// <summary>--lot.</summary>
    public Option<int?> Units { get; } = new("--lot")
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"units in the lot that the products were drawn from, 2 to {LotPlan.MaxLot}: tells whether it is accepted, by the\n")
            + "first units of each product that the plan asks for. Single sampling, normal inspection, level II",
        HelpName = "UNITS",
    };

    /// <summary>--aql.</summary>
    public Option<string> Limit { get; } = new("--aql")
    {
        Description = $"acceptance quality limit of the lot in per cent: {string.Join(", ", LotPlan.Limits)}",
        HelpName = "PERCENT",
    };

    /// <summary>Refuses what the tables do not have.</summary>
    public void AddValidatorTo(Command command) => command.Validators.Add(result =>
    {
        (int? units, string? limit) = (result.GetValue(Units), result.GetValue(Limit));
        if (units is null != limit is null)
        {
            result.AddError("--lot and --aql belong together: --lot 200 --aql 1.0.");
        }
        else if (units is < 2 or > LotPlan.MaxLot)
        {
            result.AddError(string.Create(CultureInfo.InvariantCulture, $"--lot takes 2 to {LotPlan.MaxLot} units."));
        }
        else if (limit is not null && PlaceOf(limit) < 0)
        {
            result.AddError($"--aql takes {string.Join(", ", LotPlan.Limits)}.");
        }
    });

    /// <summary>What was asked for; null where nothing was.</summary>
    public LotJudgement? From(ParseResult parsed) =>
        parsed.GetValue(Units) is { } units && parsed.GetValue(Limit) is { } limit ? new LotJudgement(units, PlaceOf(limit)) : null;

    // 1 and 1.0 are the same limit.
    private static int PlaceOf(string limit) => decimal.TryParse(limit, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value)
        ? LotPlan.Limits.ToList().FindIndex(known => decimal.Parse(known, CultureInfo.InvariantCulture) == value) : -1;
}
