namespace Portwitness.Labels.Tests;

/// <summary>What each port and direction of a label is rated, to compare two readings.</summary>
public static class RatedPorts
{
    /// <summary>One line for each rating: whose it is, in which direction, and its values.</summary>
    public static HashSet<string> Of(Label label)
    {
        HashSet<string> rated = [];
        foreach (PrintedInput input in label.Inputs)
        {
            // A word may hide the current of a supply from it.
            rated.Add($"in {Key(input.Port)} {input.MinimumVoltage}-{input.MaximumVoltage}");
            rated.Add($"in {Key(input.Port)} {input.MinimumVoltage}-{input.MaximumVoltage} {input.Current}".TrimEnd());
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            rated.Add($"in {Key(maximum.Port)} max {maximum.Power}");
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            rated.UnionWith(output.Fixed.Select(mode => $"out {Key(output.Port)} {mode.Voltage} {mode.Current}"));
            // A power is the mode's, the protocol's or the port's: of the same port in any case.
            rated.UnionWith(output.Fixed.Where(static mode => mode.Power is not null).Select(mode => $"out {Key(output.Port)} max {mode.Power}"));
            rated.UnionWith(output.Ranges.Select(range => $"out {Key(output.Port)} {range.Minimum}-{range.Maximum} {range.Current}"));
            rated.UnionWith(output.Alternating.Select(mains => $"out {Key(output.Port)} AC {mains.Minimum}-{mains.Maximum}"));
            rated.UnionWith(output.ProtocolMaxima.Select(maximum => $"out {Key(output.Port)} max {maximum.Power}"));
            if (output.Maximum is { } most)
            {
                rated.Add($"out {Key(output.Port)} max {most.Power}");
            }
        }

        foreach (PrintedCombination together in label.Combinations)
        {
            rated.UnionWith(together.Split.Select(share => $"of {string.Join('+', together.Ports)}: {share.Port} {share.Power} "
                + string.Concat(share.Fixed.Select(static mode => $"{mode.Voltage} {mode.Current} "))));
            rated.UnionWith(together.Pools.Select(pool => $"of {string.Join('+', together.Ports)}: pool {string.Join('+', pool.Ports)} {pool.Power}"));
        }

        return rated;
    }

    private static string Key(string? port) => port is null ? "" : PortNames.Key(port);
}
