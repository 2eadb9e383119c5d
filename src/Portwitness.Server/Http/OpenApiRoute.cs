using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Portwitness.Contracts.V1;

namespace Portwitness.Server.Http;

/// <summary>The description of the JSON calls, for programs. Open to all: it says nothing that the contract does not.</summary>
internal static class OpenApiRoute
{
    /// <summary>Adds it.</summary>
    public static void Map(WebApplication app)
    {
        string document = OpenApiDocument.Of(Witness.Descriptor).ToJsonString();
        app.MapGet("/openapi.json", () => Results.Text(document, "application/json")).AllowAnonymous();
    }
}
