using Portwitness.Labels;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What a label prints for one port.</summary>
internal static class PrintedOutputTranslation
{
    public static Wire.PrintedOutput ToContract(PrintedOutput output)
    {
        Wire.PrintedOutput translated = new()
        {
            Port = output.Port,
            Line = output.At.Line,
            Column = output.At.Column,
            CaptiveCable = output.IsCaptiveCable,
            Incomplete = output.Incomplete,
        };
        translated.Fixed.AddRange(output.Fixed.Select(ToContract));
        translated.Ranges.AddRange(output.Ranges.Select(ToContract));
        translated.Alternating.AddRange(output.Alternating.Select(PrintedExtraTranslation.ToContract));
        translated.ProtocolMaxima.AddRange(output.ProtocolMaxima.Select(one => new Wire.PrintedProtocolMaximum
        {
            Protocol = one.Protocol ?? "", PowerMw = one.Power.Milliwatts, Line = one.At.Line, Column = one.At.Column,
        }));
        if (output.Maximum is { } maximum)
        {
            translated.MaxPowerMw = maximum.Power.Milliwatts;
            translated.MaxPowerLine = maximum.At.Line;
            translated.MaxPowerColumn = maximum.At.Column;
        }

        return translated;
    }

    public static Wire.PrintedFixed ToContract(PrintedFixed mode)
    {
        Wire.PrintedFixed translated = new()
        {
            VoltageMv = mode.Voltage.Millivolts,
            CurrentMa = mode.Current.Milliamperes,
            Protocol = mode.Protocol ?? "",
            Line = mode.At.Line,
            Column = mode.At.Column,
            Text = mode.Text,
        };
        if (mode.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }

    public static Wire.PrintedRange ToContract(PrintedRange range)
    {
        Wire.PrintedRange translated = new()
        {
            Kind = range.Kind ?? "",
            MinVoltageMv = range.Minimum.Millivolts,
            MaxVoltageMv = range.Maximum.Millivolts,
            CurrentMa = range.Current.Milliamperes,
            Line = range.At.Line,
            Column = range.At.Column,
            Text = range.Text,
        };
        if (range.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }
}
