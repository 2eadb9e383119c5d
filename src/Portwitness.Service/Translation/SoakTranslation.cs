using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Loads that were held for long, and what loads say of ports and cables.</summary>
internal static class SoakTranslation
{
    public static void AddSoaks(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.Soaks.AddRange(analysis.Soaks.Select(ToContract));
        report.LoadLines.AddRange(analysis.LoadLines.Select(static line => new Wire.LoadLine
        {
            Port = line.Port, InUse = { line.InUse }, AtMv = line.At.Millivolts, LeastUa = line.Least.Microamperes, LeastUv = line.Least.Microvolts, MostUa = line.Most.Microamperes,
            MostUv = line.Most.Microvolts, EffectPpm = line.EffectPpm, ResistanceUohm = line.Microohms, ExpandedUohm = line.ExpandedMicroohms,
        }));
        report.Cables.AddRange(analysis.Cables.Select(static cable => new Wire.CableLoss
        {
            Port = cable.Port, AtMv = cable.At.Millivolts, ResistanceUohm = cable.Microohms, ExpandedUohm = cable.ExpandedMicroohms, MostUa = cable.MostMicroamperes,
            By = cable.IsByTwoCurrents ? "two currents" : "two points",
        }));
    }

    private static Wire.SoakResult ToContract(Soak soak)
    {
        SustainedPower power = soak.Power;
        Wire.SoakResult translated = new()
        {
            File = soak.Log.Log.File, Port = soak.Log.Log.Port ?? "", At = soak.Log.Log.AtText, ForUs = power.ForUs, FirstMw = power.FirstMilliwatts,
            AtMarksMw = { power.AtMarks.TakeWhile(static mark => mark is not null).Select(static mark => mark!.Value) },
            Fall = power.Fall switch
            {
                PowerFall.Voltage => "voltage",
                PowerFall.Current => "current",
                PowerFall.Off => "off",
                _ => "none",
            },
            Announcement = soak.Announcement switch
            {
                Announcement.Announced => "announced",
                Announcement.Silent => "silent",
                _ => "unknown",
            },
            Said = PhraseText.Of(soak.Said), ChargeUah = power.UntilFall.MicroampereHours, EnergyUwh = power.UntilFall.MicrowattHours, TimesOff = soak.Log.CollapseCount,
        };
        SetKnown(translated, soak);
        return translated;
    }

    private static void SetKnown(Wire.SoakResult translated, Soak soak)
    {
        SustainedPower power = soak.Power;
        if (soak.PrintedMilliwatts is { } printed)
        {
            translated.PrintedMw = printed;
        }

        if (power is { SteadyMilliwatts: { } steady, IsPowerSteady: { } isSteady })
        {
            (translated.SteadyMw, translated.PowerSteady) = (steady, isSteady);
        }

        if (power.FellAtUs is { } fell)
        {
            translated.FellAtUs = fell;
        }

        if (power.RecoveredAtUs is { } back)
        {
            translated.RecoveredAtUs = back;
        }

        if (power.Temperatures is not { } temperatures)
        {
            return;
        }

        (translated.HottestMdegc, translated.HottestAtUs, translated.SurfaceMdegc) = (temperatures.HottestSurface, temperatures.HottestAtUs, temperatures.LastSurface);
        if (temperatures.LastRoom is { } room)
        {
            translated.RoomMdegc = room;
        }

        if (temperatures.IsSteady is { } isSurfaceSteady)
        {
            translated.SurfaceSteady = isSurfaceSteady;
        }
    }
}
