using Portwitness.Labels;
using Portwitness.Labels.Photos;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>A label as it was read.</summary>
internal static class LabelTranslation
{
    public static Wire.Label ToContract(this Label label)
    {
        Wire.Label translated = new()
        {
            Text = label.Text,
            ByHand = label.ByHand,
            UnlistedUnread = label.UnlistedUnread,
            UnlistedRepairs = label.UnlistedRepairs,
            Battery = label.Battery is null ? null : ToContract(label.Battery),
        };
        translated.Inputs.AddRange(label.Inputs.Select(ToContract));
        translated.Outputs.AddRange(label.Outputs.Select(PrintedOutputTranslation.ToContract));
        translated.Combinations.AddRange(label.Combinations.Select(PrintedCombinationTranslation.ToContract));
        translated.Ambiguous.AddRange(label.Ambiguous.Select(PrintedCombinationTranslation.ToContract));
        translated.InputMaxima.AddRange(label.InputMaxima.Select(maximum => new Wire.PrintedInputMaximum
        {
            Port = maximum.Port ?? "", PowerMw = maximum.Power.Milliwatts, Line = maximum.At.Line, Column = maximum.At.Column,
        }));
        translated.Pads.AddRange(label.Pads.Select(PrintedExtraTranslation.ToContract));
        translated.Performance.AddRange(label.Performance.Select(PrintedExtraTranslation.ToContract));
        translated.Repairs.AddRange(label.Repairs.Select(PrintedExtraTranslation.ToContract));
        translated.Unread.AddRange(label.Unread.Select(ToContract));
        translated.Remarks.AddRange(label.Remarks.Select(remark => new Wire.PrintedRemark
        {
            Line = remark.At.Line, Column = remark.At.Column, Text = remark.Text,
        }));
        translated.OpenPlaces.AddRange(OpenPlaces.Of(label).Select(ToContract));
        if (label.Photo is { } photo)
        {
            translated.Photo = new Wire.LabelPhoto { Width = photo.Width, Height = photo.Height, Checked = label.IsChecked };
            translated.Photo.Words.AddRange(photo.Words.Select(ToContract));
        }

        if (label.Total is { } total)
        {
            translated.Total = new()
            {
                PowerMw = total.Power.Milliwatts,
                Scope = total.Scope,
                Line = total.At.Line,
                Column = total.At.Column,
            };
        }

        return translated;
    }

    private static Wire.RecognisedWord ToContract(RecognisedWord word) => new()
    {
        Line = word.Line,
        Text = word.Text,
        Percent = word.Percent,
        Left = word.Left,
        Top = word.Top,
        Width = word.Width,
        Height = word.Height,
        Doubtful = word.IsDoubtful,
    };

    private static Wire.PrintedInput ToContract(PrintedInput input)
    {
        Wire.PrintedInput translated = new()
        {
            Port = input.Port ?? "",
            Alternating = input.Alternating,
            Protocol = input.Protocol ?? "",
            MinVoltageMv = input.MinimumVoltage.Millivolts,
            MaxVoltageMv = input.MaximumVoltage.Millivolts,
            Line = input.At.Line,
            Column = input.At.Column,
        };
        translated.FrequencyHz.AddRange(input.FrequenciesHz);
        if (input.Current is { } current)
        {
            translated.CurrentMa = current.Milliamperes;
        }

        if (input.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }

    private static Wire.PrintedBattery ToContract(PrintedBattery battery)
    {
        Wire.PrintedBattery translated = new() { Line = battery.At.Line, Column = battery.At.Column };
        if (battery.CapacityMilliampereHours is { } capacity)
        {
            translated.CapacityMah = capacity;
        }

        if (battery.NominalVoltage is { } nominal)
        {
            translated.NominalVoltageMv = nominal.Millivolts;
        }

        if (battery.Energy is { } energy)
        {
            translated.EnergyMwh = energy.MilliwattHours;
        }

        if (battery.SeriesCells is { } series)
        {
            translated.SeriesCells = series;
        }

        if (battery.ParallelCells is { } parallel)
        {
            translated.ParallelCells = parallel;
        }

        if (battery.RatedCapacityMilliampereHours is { } rated)
        {
            translated.RatedCapacityMah = rated;
        }

        if (battery.RatedVoltage is { } ratedVoltage)
        {
            translated.RatedVoltageMv = ratedVoltage.Millivolts;
        }

        if (battery.RatedCurrent is { } ratedCurrent)
        {
            translated.RatedCurrentMa = ratedCurrent.Milliamperes;
        }

        translated.Statements.AddRange(battery.Statements.Select(ToContract));

        return translated;
    }

    private static Wire.UnreadSpan ToContract(UnreadSpan span) =>
        new() { Line = span.At.Line, Column = span.At.Column, Text = span.Text, MayRate = span.MayRate };

    private static Wire.OpenPlace ToContract(OpenPlace place)
    {
        Wire.OpenPlace translated = new() { Line = place.At.Line, Column = place.At.Column, Text = place.Text, MayRate = place.MayRate };
        translated.Readings.AddRange(place.Readings.Select(static reading => reading.ToYaml()));
        return translated;
    }
}
