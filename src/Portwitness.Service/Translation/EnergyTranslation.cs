using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Controllers;
using Portwitness.Product.Energy;
using Portwitness.Product.Pack;
using Portwitness.Product.Parts;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Logs of power, mains supplies and parts.</summary>
internal static class EnergyTranslation
{
    public static void AddEnergy(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.PowerLogs.AddRange(analysis.Energy.Logs.Select(log => ToContract(log, analysis.Energy)));
        if (RoundTrip.Of(analysis.Energy.Logs) is { } trip)
        {
            report.RoundTrip = new Wire.RoundTrip { ChargeFile = trip.Charge.Log.File, DischargeFile = trip.Discharge.Log.File, Ppm = trip.Ppm, ExpandedPpm = trip.ExpandedPpm };
        }

        report.Adapter.AddRange(analysis.Energy.Adapter.Select(ToContract));
        report.Parts.AddRange(analysis.Parts.Select(ToContract));
        report.Controllers.AddRange(analysis.Controllers.Select(ToContract));
        report.Pack.AddRange(analysis.Pack?.All().Select(ToContract) ?? []);
    }

    private static Wire.ChargeCurve ToContract(ChargeCurve charging)
    {
        Wire.ChargeCurve translated = new()
        {
            PeakMw = charging.PeakMilliwatts, MeanMw = charging.MeanMilliwatts, EnergyUwh = charging.MicrowattHours, AtMarksUs = { charging.AtMarks.OfType<long>() },
        };
        if (charging.ConstantUntilUs is { } constant)
        {
            translated.ConstantUntilUs = constant;
        }

        if (charging.EndedAtUs is { } ended)
        {
            translated.EndedAtUs = ended;
        }

        return translated;
    }

    private static Wire.PowerLog ToContract(MeasuredLog log, ProductEnergy energy)
    {
        Wire.PowerLog translated = new()
        {
            File = log.Log.File,
            Port = log.Log.Port ?? "",
            At = log.Log.AtText,
            Kind = log.Log.Kind == LogKind.Charge ? "charge" : "discharge",
            Rows = log.Rows,
            ChargeUah = ToContract(log.Charge),
            EnergyUwh = ToContract(log.Energy),
            LoadUs = log.LoadUs,
            End = log.End switch
            {
                LogEnd.CutOff => "cut-off",
                LogEnd.OutputOff => "output off",
                LogEnd.LoadOff => "load off",
                _ => "log ended",
            },
            Meter = PhraseText.Of(log.Meter.Text()),
            PositiveCurrent = log.Sign == CurrentSign.OutPositive ? "out" : "in",
            Gaps = log.Gaps.Count,
            ClockStepsBack = log.Gaps.Jumps,
        };
        if (log.Mean is { } mean)
        {
            (translated.MeanUv, translated.MeanUa) = (mean.Microvolts, mean.Microamperes);
        }

        if (log.Charging is { } charging)
        {
            translated.Charging = ToContract(charging);
        }

        if (energy.Efficiency(log) is { } share)
        {
            translated.EfficiencyPpm = share.Value;
        }

        return translated;
    }

    private static Wire.MeasuredAmount ToContract(MeasuredAmount amount)
    {
        Wire.MeasuredAmount translated = new() { Value = amount.Value, Least = amount.Least };
        if (amount.Most is { } most)
        {
            translated.Most = most;
        }

        return translated;
    }

    private static Wire.AdapterResult ToContract(AdapterRun run)
    {
        Wire.AdapterResult translated = new() { OutputMv = run.At.Millivolts, RatedMa = run.Rated.Milliamperes };
        if (run.AveragePpm is { } average)
        {
            (translated.AverageEfficiencyPpm, translated.UncertaintyPpm) = (average, run.UncertaintyPpm!.Value);
        }

        if (run.NoLoadMilliwatts is { } noLoad)
        {
            translated.NoLoadMw = noLoad;
        }

        return translated;
    }

    private static Wire.PartResult ToContract(PartStress stress)
    {
        Wire.PartResult translated = new()
        {
            Part = stress.Part.Name, Node = stress.Part.Node, Kind = stress.Part.Kind.ToWord(), Rating = PhraseText.Of(stress.Part.Rating),
            NodeBasis = stress.Level.Basis switch
            {
                NodeBasis.Offered => "offered",
                NodeBasis.Printed => "printed",
                NodeBasis.Cells => "cells",
                _ => "",
            },
        };
        if (stress.Part.Volts is { } volts)
        {
            translated.RatedMv = volts.Millivolts;
        }

        if (stress.Part.Amperes is { } amperes)
        {
            translated.RatedMa = amperes.Milliamperes;
        }

        if (stress.Level is { Highest: { } highest, Moment: { } moment })
        {
            (translated.HighestMv, translated.HighestMomentMv) = (highest.Millivolts, moment.Millivolts);
        }

        if (stress.Level.Largest is { } current)
        {
            translated.LargestMa = current.Milliamperes;
        }

        return translated;
    }

    private static Wire.PackFigure ToContract(PackFigure figure)
    {
        Wire.PackFigure translated = new()
        {
            About = PhraseText.Of(figure.About),
            Value = figure.Value.Least,
            Unit = figure.Value.Unit switch
            {
                FigureUnit.WattHoursPerLitre => "Wh/l",
                FigureUnit.WattHoursPerKilogram => "Wh/kg",
                FigureUnit.Milliamperes => "mA",
                FigureUnit.Minutes => "min",
                _ => "tenths of a fill",
            },
            Basis = PhraseText.Of(figure.Basis),
        };
        if (figure.Value.Most is { } most)
        {
            translated.Most = most;
        }

        return translated;
    }

    private static Wire.ControllerResult ToContract(ControllerUse use)
    {
        Wire.ControllerResult translated = new() { Part = use.Controller.Name };
        translated.Ports.AddRange(use.Ports);
        translated.Protocols.AddRange(use.Controller.Protocols);
        if (use.Controller.Power is { } power)
        {
            translated.RatedMw = power.Milliwatts;
        }

        if (use.MostMilliwatts is { } most)
        {
            translated.LargestMw = most;
        }

        return translated;
    }
}
