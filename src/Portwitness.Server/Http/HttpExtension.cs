using System.CommandLine;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Cli.Commands;
using Portwitness.Server.Json;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Server.Http;

/// <summary>HTTP beside gRPC: the same calls as JSON, a page of reports, and what keepers of services ask.</summary>
internal static class HttpExtension
{
    private const string Usual = "http://127.0.0.1:8080";

    /// <summary>The extension of serve.</summary>
    public static ServeExtension Create()
    {
        Option<string[]> http = new("--http")
        {
            Description = "where HTTP/1.1 is spoken, for browsers, curl and spreadsheets: an address as for --listen; may be given several times.\n"
                + "https addresses of --listen speak both",
            DefaultValueFactory = _ => [Usual], HelpName = "ADDRESS",
        };
        ServeCommand.CheckAddresses(http);
        return new ServeExtension("portwitness-server", [http], parsed => For(ServeCommand.AddressesOf(parsed, http)));
    }

    /// <summary>The extension of the service.</summary>
    public static ServiceExtension For(IReadOnlyList<ListenAddress> addresses) => new(addresses, Configure, Map);

    private static void Configure(WebApplicationBuilder builder) => builder.Services.AddGrpc().AddJsonTranscoding(static json =>
    {
        // As the canonical JSON of protocol buffers has it, and the command line prints it.
        json.JsonSettings.WriteInt64sAsStrings = true;
        json.JsonSettings.IgnoreDefaultValues = false;

        // What errors carry.
        json.TypeRegistry = TypeRegistry.FromMessages(BadRequest.Descriptor);
    });

    private static void Map(WebApplication app)
    {
        app.Use(new JsonCheck(app.Services.GetRequiredService<ServiceLimits>()).InvokeAsync);
        KeeperRoutes.Map(app);
        PageRoutes.Map(app);
        OpenApiRoute.Map(app);
    }
}
