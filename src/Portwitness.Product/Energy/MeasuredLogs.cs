namespace Portwitness.Product.Energy;

/// <summary>What a followed log comes to, with its sign, its uncertainty and what gaps may hold.</summary>
internal static class MeasuredLogs
{
    public static MeasuredLog Of(ProductLog log, LogMeter meter, LogFollower follower)
    {
        Tally final = follower.Final;
        Tally first = follower.AtFirstCollapse ?? final;
        int direction = Direction(log, final);
        bool isBounded = final.Jumps == 0 && (log.Kind == LogKind.Charge || (follower.EverLoaded && follower.End is LogEnd.CutOff or LogEnd.OutputOff));
        long ofCharge = final.Sums.ChargeUncertainty(meter.Accuracy);
        long ofEnergy = final.Sums.EnergyUncertainty(meter.Accuracy);
        Plateau plateau = follower.Plateau;
        return new MeasuredLog
        {
            Log = log,
            Meter = meter,
            Rows = 0,
            Charge = Amount(
                direction * final.Sums.MicroampereHours, direction * first.Sums.MicroampereHours, ofCharge, first.Sums.ChargeUncertainty(meter.Accuracy),
                isBounded ? EnergySums.Charge(final.LargestMicroamperes, final.UncountedUs) : null),
            Energy = Amount(
                direction * final.Sums.MicrowattHours, direction * first.Sums.MicrowattHours, ofEnergy, first.Sums.EnergyUncertainty(meter.Accuracy),
                isBounded ? EnergySums.Energy(final.LargestPower, final.UncountedUs) : null),
            ReverseMicroampereHours = final.Sums.ReverseMicroampereHours,
            Sign = (direction > 0) == (log.Kind == LogKind.Discharge) ? CurrentSign.OutPositive : CurrentSign.OutNegative,
            End = follower.End,
            EndUs = follower.EndUs,
            EverLoaded = follower.EverLoaded,
            LoadUs = plateau.TimeUs,
            Mean = plateau.TimeUs > 0 ? (plateau.MeanMicrovolts, plateau.MeanMicroamperes) : null,
            LargestMicroamperes = final.LargestMicroamperes,
            Extremes = plateau.Extremes,
            Limits = plateau.Limits,
            Above = plateau.Above,
            Below = plateau.Below,
            Collapses = [.. follower.Collapses],
            CollapseCount = follower.CollapseCount,
            Gaps = new LogGaps(
                final.Gaps, final.GapUs, final.LongestGapUs, final.LongestGapAtUs, final.LongestGapLine, final.Jumps, final.FirstJumpUs,
                final.FirstJumpLine),
            LongestStepUs = 0,
            UnitsAssumed = false,
            Faults = [],
            Trace = [],
        };
    }

    // What came before the output went off for the first time is sure to count; what came after it may.
    private static MeasuredAmount Amount(long value, long first, long uncertainty, long uncertaintyOfFirst, long? open)
    {
        long most = Sum(value, uncertainty);
        return new MeasuredAmount(value, Math.Min(first, value) - uncertaintyOfFirst, open is { } more ? Sum(most, more) : null, most);
    }

    private static int Direction(ProductLog log, in Tally tally)
    {
        int ofKind = log.Kind == LogKind.Discharge ? 1 : -1;
        return log.Sign switch
        {
            CurrentSign.OutPositive => ofKind,
            CurrentSign.OutNegative => -ofKind,
            _ => tally.Sums.MicroampereHours < 0 ? -1 : 1,
        };
    }

    private static long Sum(long left, long right) => right > 0 && left > long.MaxValue - right ? long.MaxValue : left + right;
}
