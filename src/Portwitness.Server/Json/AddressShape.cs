using Google.Protobuf.Reflection;
using Microsoft.AspNetCore.Http;

namespace Portwitness.Server.Json;

/// <summary>Holds what an address says, in its path and after the question mark, against the request of a method.</summary>
internal static class AddressShape
{
    /// <summary>What is wrong first; null when nothing is.</summary>
    /// <param name="request">The request.</param>
    /// <param name="message">Its message in the contract.</param>
    /// <param name="takesBody">Whether all that the path does not say is in the body.</param>
    public static string? FindProblem(HttpRequest request, MessageDescriptor message, bool takesBody)
    {
        foreach ((string name, object? value) in request.RouteValues)
        {
            if (JsonShape.Find(message, name) is { } field && JsonShape.OfText(value as string ?? "", field) is { } problem)
            {
                return $"{name}: {problem}.";
            }
        }

        HashSet<FieldDescriptor> seen = [];
        foreach ((string name, Microsoft.Extensions.Primitives.StringValues values) in request.Query)
        {
            FieldDescriptor[] known = takesBody ? [] : [.. message.Fields.InFieldNumberOrder().Where(one => one.FieldType != FieldType.Message && !request.RouteValues.ContainsKey(one.Name))];
            if (Array.Find(known, one => one.JsonName == name || one.Name == name) is not { } field)
            {
                string expected = known.Length == 0 ? "none is taken here" : $"expected {string.Join(", ", known.Select(static one => one.JsonName))}";
                return $"{JsonShape.Short(name)}: there is no such parameter; {expected}.";
            }

            if (!seen.Add(field) || (values.Count > 1 && !field.IsRepeated))
            {
                return $"{name}: given twice.";
            }

            if (values.Select(value => JsonShape.OfText(value ?? "", field)).FirstOrDefault(static found => found is not null) is { } problem)
            {
                return $"{name}: {problem}.";
            }
        }

        return null;
    }
}
