using System.Collections.Immutable;
using Portwitness.Product.Energy;
using Portwitness.Product.Pack;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "battery:" of a product file: what cells hold, how they are built, and what they are to fill.</summary>
internal sealed class BatteryReader(YamlValues values)
{
    internal static readonly string[] Members = ["cells", "mass_g", "size_mm", "plausible", "fills"];
    internal static readonly string[] CellMembers =
    [
        "series", "parallel", "capacity_mah", "nominal_v", "full_v", "empty_v", "energy_wh", "max_charge_a", "max_discharge_a", "size_mm", "mass_g", "code",
        "protection",
    ];

    internal static readonly string[] PlausibleMembers = ["wh_per_litre", "wh_per_kg"];
    internal static readonly string[] FillMembers = ["device", "energy_wh"];

    private const int MaxCells = 1_000;
    private const int MaxMilliampereHours = 1_000_000;
    private const int MaxCellMillivolts = 10_000;
    private const int MaxMilliamperes = 1_000_000;
    private const int MaxMilliwattHours = 100_000_000;
    private const int MaxMilligrams = 100_000_000;
    private const int MaxHundredths = 1_000_000;
    private const int MaxDensity = 100_000;
    private const int MaxFills = 100;
    private const int MaxProtection = 20;

    /// <summary>What is stated; the energy of cells is null, with a fault, when it cannot be reckoned, and the build when nothing of it is stated.</summary>
    public (StatedCells? Cells, PackBuild? Build) Read(YamlNode node)
    {
        (StatedCells? cells, PackBuild build) = (null, new PackBuild());
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "battery"))
        {
            switch (key.Text)
            {
                case "cells":
                    (cells, build) = Cells(value, build);
                    break;
                case "mass_g":
                    build = build with { BodyMassMilligrams = values.Number(value, key.Text, 1, MaxMilligrams, 3) };
                    break;
                case "size_mm":
                    build = build with { BodySize = Size(value) };
                    break;
                case "plausible":
                    build = Plausible(value, build);
                    break;
                case "fills":
                    build = build with { Fills = [.. values.Items(value, "fills", MaxFills).Select(Fill).OfType<FilledDevice>()] };
                    break;
                default:
                    values.Unknown(key, "a battery", Members);
                    break;
            }
        }

        if (cells is null && build == new PackBuild())
        {
            if (values.Faults.TrueForAll(fault => fault.Line < node.Line))
            {
                Missing(node);
            }

            return (null, null);
        }

        return (cells, build);
    }

    private (StatedCells? Cells, PackBuild Build) Cells(YamlNode node, PackBuild build)
    {
        (int? capacity, int? nominal, int? energy) = (null, null, null);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "cells"))
        {
            string name = key.Text;
            switch (name)
            {
                case "series":
                    build = build with { Series = values.Number(value, name, 1, MaxCells, 0) ?? 1 };
                    break;
                case "parallel":
                    build = build with { Parallel = values.Number(value, name, 1, MaxCells, 0) ?? 1 };
                    break;
                case "capacity_mah":
                    capacity = values.Number(value, name, 1, MaxMilliampereHours, 0);
                    break;
                case "nominal_v":
                    nominal = values.Number(value, name, 1, MaxCellMillivolts, 3);
                    break;
                case "energy_wh":
                    energy = values.Number(value, name, 1, MaxMilliwattHours, 3);
                    break;
                case "full_v":
                    build = build with { FullMillivolts = values.Number(value, name, 1, MaxCellMillivolts, 3) };
                    break;
                case "empty_v":
                    build = build with { EmptyMillivolts = values.Number(value, name, 1, MaxCellMillivolts, 3) };
                    break;
                case "max_charge_a":
                    build = build with { MaxChargeMilliamperes = values.Number(value, name, 1, MaxMilliamperes, 3) };
                    break;
                case "max_discharge_a":
                    build = build with { MaxDischargeMilliamperes = values.Number(value, name, 1, MaxMilliamperes, 3) };
                    break;
                case "size_mm":
                    build = build with { Size = Size(value) };
                    break;
                case "mass_g":
                    build = build with { MassMilligrams = values.Number(value, name, 1, MaxMilligrams, 3) };
                    break;
                case "code":
                    build = build with { Code = Code(value) };
                    break;
                case "protection":
                    build = build with { Protection = [.. values.Items(value, name, MaxProtection).Select(one => values.Text(one, name)).OfType<string>()] };
                    break;
                default:
                    values.Unknown(key, "a battery's cells", CellMembers);
                    break;
            }
        }

        if (capacity is { } mah && nominal is { } volts)
        {
            return (new StatedCells(build.Series, build.Parallel, mah, volts) { MilliwattHours = energy }, build);
        }

        // Without an energy of its own a cell is reckoned with what the label prints.
        bool isBuilt = build is { Size: not null } or { MassMilligrams: not null } or { Code: not null } or { MaxDischargeMilliamperes: not null };
        if (capacity is not null || nominal is not null || energy is not null || !isBuilt)
        {
            Missing(node);
        }

        return (null, build);
    }

    private void Missing(YamlNode node) => values.Fault(
        node, ProductFaultCodes.ValueWrong,
        "the energy of the cells needs \"capacity_mah:\" and \"nominal_v:\" of one cell, as {cells: {series: 1, parallel: 2, capacity_mah: 6500, nominal_v: 3.85}}");

    private string? Code(YamlNode node)
    {
        string? code = values.Text(node, "code");
        if (code is not null && CellCode.Read(code).IsEmpty)
        {
            values.Fault(
                node, ProductFaultCodes.ValueWrong,
                $"\"{code}\" is no code of a cell's size that is known here, for example 18650, INR19/66, 606090 or 1ICP11/58/85; give \"size_mm:\" instead");
            return null;
        }

        return code;
    }

    /// <summary>[18.4, 65.2] of a cylinder, [6, 60, 90] of anything else; null, with a fault, for neither.</summary>
    public CellSize? Size(YamlNode node)
    {
        int?[] sides = [.. values.Items(node, "size_mm").Take(4).Select(side => values.Number(side, "size_mm", 1, MaxHundredths, 2))];
        switch (sides)
        {
            case [{ } diameter, { } height]:
                return new CellSize(diameter, height, null);
            case [{ } thickness, { } width, { } length]:
                return new CellSize(thickness, width, length);
            default:
                if (!sides.Contains(null))
                {
                    values.Fault(node, ProductFaultCodes.ValueWrong, "\"size_mm:\" has two numbers, diameter and height, or three, as [18.4, 65.2] or [6, 60, 90]");
                }

                return null;
        }
    }

    private PackBuild Plausible(YamlNode node, PackBuild build)
    {
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "plausible"))
        {
            switch (key.Text)
            {
                case "wh_per_litre":
                    build = build with { PlausibleByVolume = Band(value, key.Text) ?? build.PlausibleByVolume };
                    break;
                case "wh_per_kg":
                    build = build with { PlausibleByMass = Band(value, key.Text) ?? build.PlausibleByMass };
                    break;
                default:
                    values.Unknown(key, "\"plausible:\"", PlausibleMembers);
                    break;
            }
        }

        return build;
    }

    private (int Least, int Most)? Band(YamlNode node, string where)
    {
        if (values.Items(node, where).Take(3).Select(one => values.Number(one, where, 0, MaxDensity, 0)).ToArray() is [{ } least, { } most] && least < most)
        {
            return (least, most);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, $"\"{where}:\" has the least and the most, as [200, 850]");
        return null;
    }

    private FilledDevice? Fill(YamlNode node)
    {
        (string? device, int? energy) = (null, null);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "fills"))
        {
            switch (key.Text)
            {
                case "device":
                    device = values.Text(value, key.Text);
                    break;
                case "energy_wh":
                    energy = values.Number(value, key.Text, 1, MaxMilliwattHours, 3);
                    break;
                default:
                    values.Unknown(key, "a device to fill", FillMembers);
                    break;
            }
        }

        if (device is not null && energy is { } held)
        {
            return new FilledDevice(device, held);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a device to fill needs \"device:\" and \"energy_wh:\", as {device: handset, energy_wh: 19.35}");
        return null;
    }
}
