using System.Collections.Immutable;
using Portwitness.Captures.Offers;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one element of "offers:" of a product file.</summary>
internal sealed class TypedOffersReader(YamlValues values)
{
    private const int MaxOffers = 64;

    internal static readonly string[] Members = ["port", "in_use", "list", "read_on", "from", "under_contract", "complete", "photo", "checked"];

    /// <summary>Reads it; null, with a fault, when it has no port or no list.</summary>
    public TypedOffers? Read(YamlNode item)
    {
        TypedOffers typed = new("", [], []) { Line = item.Line };
        foreach ((YamlText key, YamlNode value) in values.Entries(item, "offers"))
        {
            switch (key.Text)
            {
                case "port":
                    typed = typed with { Port = values.Text(value, "port") ?? "" };
                    break;
                case "in_use":
                    typed = typed with { InUse = [.. values.Items(value, "in_use").Select(node => values.Text(node, "in_use")).OfType<string>()] };
                    break;
                case "list":
                    typed = List(typed, value);
                    break;
                case "read_on":
                    typed = typed with { ReadOn = values.Text(value, "read_on") ?? "" };
                    break;
                case "from":
                    typed = typed with { From = values.Text(value, "from") ?? "" };
                    break;
                case "under_contract":
                    typed = typed with { UnderContract = values.Truth(value, "under_contract") };
                    break;
                case "complete":
                    typed = typed with { Complete = values.Truth(value, "complete") == true };
                    break;
                case "photo" when values.Text(value, "photo") is { } photo && !RelativePath.StaysInside(photo):
                    values.Fault(
                        value, ProductFaultCodes.PathLeavesFolder, $"\"{photo}\" leaves the product's folder; put the photo beside the product file and name it relative to it");
                    return null;
                case "photo":
                    typed = typed with { Photo = values.Text(value, "photo") };
                    break;
                case "checked":
                    typed = typed with { IsChecked = values.Truth(value, "checked") == true };
                    break;
                default:
                    values.Unknown(key, "typed offers", Members);
                    break;
            }
        }

        if (typed is { Photo: not null, List.IsEmpty: false })
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, "\"list:\" and \"photo:\" are both given; the list is read, the photo is not");
            typed = typed with { Photo = null };
        }

        if (typed.Port.Length > 0 && (!typed.List.IsEmpty || typed.Photo is not null))
        {
            return typed.InUse.IsEmpty ? typed with { InUse = [typed.Port] } : typed;
        }

        if (values.Faults.TrueForAll(fault => fault.Line != item.Line || fault.Code != ProductFaultCodes.ValueWrong))
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, "typed offers need \"port:\", and \"list:\" or \"photo:\", for example {port: C1, list: [5V 3A, 9V 3A, PPS 3.3-11V 3A]}");
        }

        return null;
    }

    // A list, or one text with commas. What an offer is, and what is wrong with it, is read with the captures.
    private TypedOffers List(TypedOffers typed, YamlNode value)
    {
        ImmutableArray<string>.Builder offers = ImmutableArray.CreateBuilder<string>();
        ImmutableArray<(int, int)>.Builder places = ImmutableArray.CreateBuilder<(int, int)>();
        foreach (YamlNode item in value is YamlText ? [value] : values.Items(value, "list"))
        {
            foreach (string offer in values.Text(item, "list") is { } text ? OfferPieces.Split(text) : [])
            {
                if (offers.Count == MaxOffers)
                {
                    values.Fault(item, ProductFaultCodes.ValueWrong, $"a list has at most {MaxOffers} offers; the others were not read");
                    return typed with { List = offers.ToImmutable(), Places = places.ToImmutable() };
                }

                offers.Add(offer);
                places.Add((item.Line, item.Column));
            }
        }

        return typed with { List = offers.ToImmutable(), Places = places.ToImmutable() };
    }
}
