using Portwitness.Labels;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What a label prints besides ratings of ports, and what was repaired in it.</summary>
internal static class PrintedExtraTranslation
{
    public static Wire.PrintedPad ToContract(PrintedPad pad)
    {
        Wire.PrintedPad translated = new() { Name = pad.Name, Line = pad.At.Line, Column = pad.At.Column };
        translated.PowerMw.AddRange(pad.Powers.Select(static power => power.Milliwatts));
        return translated;
    }

    public static Wire.PrintedPerformance ToContract(PrintedPerformance figure)
    {
        Wire.PrintedPerformance translated = new()
        {
            Kind = figure.Kind switch
            {
                PerformanceKind.AverageEfficiency => "average_efficiency",
                PerformanceKind.LowLoadEfficiency => "low_load_efficiency",
                PerformanceKind.NoLoadPower => "no_load_power",
                _ => "conversion_efficiency",
            },
            Line = figure.At.Line,
            Column = figure.At.Column,
            Text = figure.Text,
        };
        if (figure.PartsPerMillion is { } parts)
        {
            translated.PartsPerMillion = parts;
        }

        if (figure.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }

    public static Wire.PrintedRepair ToContract(PrintedRepair repair) => new()
    {
        Kind = repair.Kind switch
        {
            RepairKind.Characters => "characters",
            RepairKind.Sign => "sign",
            RepairKind.Number => "number",
            RepairKind.Wrap => "wrap",
            _ => "by_hand",
        },
        Line = repair.At.Line,
        Column = repair.At.Column,
        Before = repair.Before,
        After = repair.After,
    };

    public static Wire.PrintedAlternating ToContract(PrintedAlternating mains)
    {
        Wire.PrintedAlternating translated = new()
        {
            MinVoltageMv = mains.Minimum.Millivolts,
            MaxVoltageMv = mains.Maximum.Millivolts,
            Line = mains.At.Line,
            Column = mains.At.Column,
        };
        translated.FrequencyHz.AddRange(mains.FrequenciesHz);
        if (mains.Current is { } current)
        {
            translated.CurrentMa = current.Milliamperes;
        }

        if (mains.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }
}
